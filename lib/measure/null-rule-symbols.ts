import type { EventId } from "@/lib/measure/clip-input";

/** Event symbols of the expression language. Source: phases `events`. */
export const EVENT_OF_SYMBOL: Readonly<Record<string, EventId>> = {
  t_release: "release", t_stance: "stance", t_first_move: "first-move", t_load: "load", t_toe: "toe",
  t_plant: "plant", t_launch: "launch", t_contact: "contact", t_ext: "extension", t_finish: "finish",
};
