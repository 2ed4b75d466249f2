import type { PointId } from "@/lib/measure/points";

/** Names of the points for sentences. */
export const POINT_NAMES: Readonly<Record<PointId, string>> = {
  nose: "nose", ear_f: "front ear", ear_b: "back ear", sh_f: "front shoulder", sh_b: "back shoulder",
  el_f: "front elbow", el_b: "back elbow", wr_f: "front wrist", wr_b: "back wrist", hip_f: "front hip", hip_b: "back hip",
  kn_f: "front knee", kn_b: "back knee", an_f: "front ankle", an_b: "back ankle", heel_f: "front heel",
  heel_b: "back heel", toe_f: "front toe", toe_b: "back toe", knob: "knob", tip: "tip of the bat", helmet: "head",
};
