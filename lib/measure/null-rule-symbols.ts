import type { LengthId } from "@/lib/measure/body-lengths";
import type { EventId } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";

/** Event symbols of the expression language. Source: phases `events`. */
export const EVENT_OF_SYMBOL: Readonly<Record<string, EventId>> = {
  t_release: "release", t_stance: "stance", t_first_move: "first-move", t_load: "load", t_toe: "toe",
  t_plant: "plant", t_launch: "launch", t_contact: "contact", t_ext: "extension", t_finish: "finish",
};

/** Turns: back point, front point, full width. */
export const TURNS = { psi_s: ["sh_b", "sh_f", "Ws"], psi_p: ["hip_b", "hip_f", "Wh"] } as const satisfies Record<string, readonly [PointId, PointId, LengthId]>;
