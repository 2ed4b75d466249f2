import { seededRandom } from "@/lib/core/random";
import type { FaultParameter, SwingSpec } from "./spec";

/** Times of the motion's keys in seconds from contact. */
export interface KeyTimes {
  readonly stance: number;
  readonly load: number;
  readonly toe: number;
  readonly plant: number;
  readonly launch: number;
  readonly contact: 0;
  readonly finish: number;
}

/** The amount of a fault in a spec, 0 when it is not named. */
export function amountOf(spec: Pick<SwingSpec, "faults">, id: FaultParameter): number {
  return spec.faults[id] ?? 0;
}

/** When the keys of the motion fall. A child swings a little slower; the late starter plants late, the dragged barrel starts early. */
export function keyTimes(spec: Pick<SwingSpec, "body" | "seed" | "faults">): KeyTimes {
  const random = seededRandom(`timing ${spec.seed}`);
  const drift = 0.012 * (random.uniform() - 0.5);
  const isChild = spec.body === "child";
  const late = amountOf(spec, "late-start");
  const drag = amountOf(spec, "barrel-drag");
  const launch = (isChild ? -0.182 : -0.152) - (isChild ? 0.15 : 0.125) * drag;
  const plant = (isChild ? -0.215 : -0.19) + drift + 0.11 * late - 0.12 * drag;
  return {
    stance: -0.85 + 0.1 * late - 0.06 * drag,
    load: -0.455 + drift + 0.1 * late - 0.1 * drag,
    toe: plant - 0.06 + 0.015 * late,
    plant,
    launch: Math.max(launch, -0.4),
    contact: 0,
    finish: 0.31 + drift,
  };
}
