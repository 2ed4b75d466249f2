import type { View } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";

/** Elbows and wrists: in every view often a limb's width off and more, and their sides often exchanged. */
const WEAK_EVERYWHERE: readonly string[] = ["el", "wr"];
/** From before and behind the head is a helmet, and its points are guesses. */
const WEAK_UNLESS_FROM_THE_SIDE: readonly string[] = ["nose", "ear"];

/**
 * Whether a suggestion of a point is too far off, too often, to be read from before a person has confirmed it: it is shown to be taken or corrected,
 * and no reading sees it. The others are drafts, which make a reading grey.
 * Source: trials on drawn hitters (elbows 41/97 px, wrists 17 to 37/100 px, median and 95 %, at a torso of 137 px); head points: tests/bench/pose.ts.
 */
export function isWeakSuggestion(point: PointId, view: View): boolean {
  const name = point.replace(/_[fb]$/, "");
  return WEAK_EVERYWHERE.includes(name) || (view !== "side" && WEAK_UNLESS_FROM_THE_SIDE.includes(name));
}

/**
 * How much wider than the library says suggested points lie in a view: its figures were found in the side view. From behind the legs hide each other.
 * Source: SDs of one coordinate on drawn hitters, tests/bench/pose.ts: knees 0.059 torso lengths from behind and 0.038 from the front beside 0.03, hips
 * 0.053 from behind beside 0.04, ears 0.13 and 0.10 beside 0.06.
 */
const WIDER: Readonly<Partial<Record<View, Readonly<Record<string, number>>>>> = { rear: { kn: 2, hip: 1.3, ear: 2.2 }, front: { kn: 1.3, ear: 1.8 } };

/** By what the library's SD of a suggested point is multiplied in a view. @param name the point's name without front and back */
export function widerInView(name: string, view: View | null): number {
  return (view && WIDER[view]?.[name]) ?? 1;
}
