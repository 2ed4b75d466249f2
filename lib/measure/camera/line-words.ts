import type { View } from "@/lib/measure/clip-input";
import type { CameraLine } from "./camera-line";

/** Where a camera stands that is off its line, by the sign of the angle. */
const TOWARD: Readonly<Record<View, readonly [string, string]>> = {
  side: ["toward the pitcher", "toward the catcher"],
  front: ["toward the hitter's back", "toward the hitter's chest"],
  rear: ["toward the hitter's chest", "toward the hitter's back"],
};

/** "About 8 degrees off, toward the pitcher, give or take 2." Whole degrees; the doubt is one SD, at least 1, rounded up. */
export function lineWords({ offDeg, sdDeg, isSignKnown }: Pick<CameraLine, "offDeg" | "sdDeg" | "isSignKnown">, view: View): string {
  const off = Math.round(Math.abs(offDeg));
  const doubt = Math.max(1, Math.ceil(sdDeg - 0.2));
  if (off === 0) return `On the line, give or take ${degrees(doubt)}.`;
  const side = isSignKnown && Math.abs(offDeg) > sdDeg ? `, ${TOWARD[view][offDeg > 0 ? 0 : 1]}` : "";
  return `About ${degrees(off)} off${side}, give or take ${doubt}.`;
}

/** An angle off the line as a person writes it: without its sign, to a tenth of a degree. */
export function writtenDeg(offDeg: number): number {
  return Math.round(Math.abs(offDeg) * 10) / 10;
}

function degrees(count: number): string {
  return count === 1 ? "1 degree" : `${count} degrees`;
}
