import type { CameraView, EventId, PointId } from "../view";

/** Short names for the keys under the clock. */
export const eventNames: Readonly<Record<EventId, string>> = {
  release: "Release", stance: "Stance", "first-move": "First move", load: "Load", toe: "Toe", plant: "Plant",
  launch: "Launch", contact: "Contact", extension: "Extension", finish: "Finish",
};

/** Views in a word: "the side clip". */
export const viewNames: Readonly<Record<CameraView, string>> = { side: "side", rear: "rear", front: "front" };

/** Points as a coach says them. */
export const pointNames: Readonly<Record<PointId, string>> = {
  nose: "nose", ear_f: "front ear", ear_b: "back ear", sh_f: "front shoulder", sh_b: "back shoulder", el_f: "front elbow",
  el_b: "back elbow", wr_f: "front wrist", wr_b: "back wrist", hip_f: "front hip", hip_b: "back hip", kn_f: "front knee",
  kn_b: "back knee", an_f: "front ankle", an_b: "back ankle", heel_f: "front heel", heel_b: "back heel", toe_f: "front toe",
  toe_b: "back toe", knob: "knob of the bat", tip: "tip of the bat", helmet: "middle of the helmet",
};

/** Lines that join points into a figure. */
export const figureLines: readonly (readonly [PointId, PointId])[] = [
  ["sh_f", "sh_b"], ["sh_f", "hip_f"], ["sh_b", "hip_b"], ["hip_f", "hip_b"], ["sh_f", "el_f"], ["el_f", "wr_f"], ["sh_b", "el_b"],
  ["el_b", "wr_b"], ["hip_f", "kn_f"], ["kn_f", "an_f"], ["hip_b", "kn_b"], ["kn_b", "an_b"], ["heel_f", "toe_f"], ["heel_b", "toe_b"],
  ["knob", "tip"],
];

/** First letter large, the rest as it is. */
export function startSentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
