import { wrapDeg, type CameraLine } from "./camera-line";

/** Two estimates of the same angle put together. */
export interface CombinedLine {
  readonly line: CameraLine;
  /** They differ by more than three SDs of their difference: one of them is mistaken. */
  readonly areAtOdds: boolean;
}

/** Beyond this many SDs of their difference two estimates do not speak of the same camera. */
const AT_ODDS_SDS = 3;

/**
 * Plate and widths together: mean by inverse variance. Widths whose side is not known are taken to the plate's side. At
 * odds, the plate alone stands, since it is the finer by far, and says so.
 * @throws RangeError for an SD that is not above 0
 */
export function combineLines(plate: CameraLine | null, widths: CameraLine | null): CombinedLine | null {
  for (const line of [plate, widths]) if (line && !(line.sdDeg > 0)) throw new RangeError("an SD must be above 0 degrees");
  if (!plate || !widths) {
    const line = plate ?? widths;
    return line && { line, areAtOdds: false };
  }
  const other = widths.isSignKnown ? widths.offDeg : widths.offDeg * (plate.offDeg < 0 ? -1 : 1);
  const apart = wrapDeg(other - plate.offDeg);
  if (Math.abs(apart) > AT_ODDS_SDS * Math.hypot(plate.sdDeg, widths.sdDeg)) return { line: plate, areAtOdds: true };
  const share = plate.sdDeg ** 2 / (plate.sdDeg ** 2 + widths.sdDeg ** 2);
  return {
    line: { offDeg: wrapDeg(plate.offDeg + share * apart), sdDeg: plate.sdDeg * Math.sqrt(1 - share), isSignKnown: true, source: "both" },
    areAtOdds: false,
  };
}
