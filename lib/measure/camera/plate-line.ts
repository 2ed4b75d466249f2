import { horizontalSign } from "@/lib/measure/swing-coordinates";
import { IDEAL_YAW_DEG, noLine, wrapDeg, type LineResult, type PictureOfView } from "./camera-line";
import { fitHomography, localMap, rmsMiss, type Homography, type PlanePoint } from "./homography";
import { aroundMiddle, middleOf, PLATE_CORNERS_M, PLATE_MIDDLE_M } from "./plate";

/** How well a plate was marked and what is taken for granted of the camera. */
export interface PlateOptions {
  /** SD of one coordinate of a marked corner, pixels. */
  readonly cornerSdPx?: number;
}

/** Corners marked by a person: the library's smallest SD of a placed point (conventions `noise.placed`). */
const CORNER_SD_PX = 1.5;

/** A camera may lean to the side this much (judgement: a phone on a stand or held with care). */
const ROLL_SD_DEG = 1.5;

/**
 * Distance of the camera to the plate in metres (middle, and SD of its logarithm), and height of the lens over the ground.
 * Source: trade advice (side 4 to 6 m, or 6 to 8 zoomed; behind the catcher; at the screen before the mound; belt high).
 */
const DISTANCE_M = { side: { middle: 6, logSd: 0.3 }, rear: { middle: 6, logSd: 0.4 }, front: { middle: 10, logSd: 0.5 } } as const;
const LENS_HEIGHT_M = { middle: 1, logSd: 0.3 } as const;

/** Share of the picture's width by which a hitter whose place is not known may stand off its middle, as an SD. */
const UNKNOWN_PLACE_SHARE = 0.1;
/** Where exactly a hitter's middle is, pixels as a share of the plate's pixels a metre. */
const HITTER_SD_M = 0.05;

/** The camera can hardly stand further off than this and still be said to have this view. */
const MOST_OFF_DEG = 60;
/** Corners that miss a plate's by more than this many of their SDs are no plate's. */
const MOST_MISS_SDS = 3;
/** A plate narrower than this many SDs of its corners says nothing. */
const LEAST_WIDTH_SDS = 12;

interface Posture {
  readonly corners: readonly PlanePoint[];
  readonly hitterX: number;
  readonly logDistance: number;
}

/**
 * The camera's angle off its line from the five corners of home plate, marked in any order. The homography from the plate to
 * the picture tells in which direction on the ground nothing moves sideways in the picture: there stands the camera.
 * That is exact for a level camera whatever its lens. From the plate the direction is carried over to what the view is about (side: the
 * hitter; front and rear: midway between hitter and plate), with the camera's distance from its trade range and from how
 * flat the plate looks. The SD carries the corners' noise (numerically, through the fit), a camera leaning to a side, and that distance.
 * @param corners pixels of the upright picture as it is in the file, y down
 * @param hitterX pixel column of the hitter's hips at the stance; null = not known, taken as the picture's middle
 */
export function plateLine(
  corners: readonly PlanePoint[],
  hitterX: number | null,
  picture: PictureOfView & { readonly widthPx: number },
  options: PlateOptions = {},
): LineResult {
  const { cornerSdPx = CORNER_SD_PX } = options;
  if (!(cornerSdPx > 0 && cornerSdPx < Infinity)) throw new RangeError("the SD of a corner must be above 0 pixels");
  if (corners.length !== PLATE_CORNERS_M.length) return noLine("home plate has five corners; mark all of them");
  if (!corners.flat().every(Number.isFinite)) return noLine("a corner has no place");
  // Seen as a right-handed hitter's unmirrored picture.
  const sign = horizontalSign({ ...picture, view: "side" });
  const ring = aroundMiddle(corners.map(([x, y]): PlanePoint => [sign * x, y]));
  if (!ring) return noLine("these five places do not lie around a plate");
  const columns = ring.map(([x]) => x);
  if (Math.max(...columns) - Math.min(...columns) < LEAST_WIDTH_SDS * cornerSdPx) return noLine("the plate is too small in the picture to say anything");
  const inOrder = ordered(ring, picture);
  if (!inOrder) return noLine("these five places do not make a home plate as this view would show it");
  const fit = fitHomography(PLATE_CORNERS_M, inOrder);
  if (!fit || rmsMiss(fit, PLATE_CORNERS_M, inOrder) > MOST_MISS_SDS * cornerSdPx) return noLine("these five places do not make a home plate; look at the corners again");

  const distance = DISTANCE_M[picture.view];
  const flatness = flatnessOf(inOrder);
  const hitter = hitterX !== null && Number.isFinite(hitterX) ? sign * hitterX : (sign * picture.widthPx) / 2;
  const fromFlatness = { log: Math.log(LENS_HEIGHT_M.middle / (flatness ?? NaN)), sd: Math.hypot(LENS_HEIGHT_M.logSd, spread((places) => Math.log(flatnessOf(places) ?? NaN), inOrder, cornerSdPx)) };
  const known = blend({ log: Math.log(distance.middle), sd: distance.logSd }, fromFlatness);
  const whole: Posture = { corners: inOrder, hitterX: hitter, logDistance: known.log };
  const off = offDegOf(whole, picture);
  const scale = localMap(fit, PLATE_MIDDLE_M);
  if (off === null || !scale) return noLine("these five places do not make a home plate; look at the corners again");
  const change = (parts: Partial<Posture>) => wrapDeg((offDegOf({ ...whole, ...parts }, picture) ?? NaN) - off);
  const hitterSd = hitterX === null ? UNKNOWN_PLACE_SHARE * picture.widthPx : HITTER_SD_M * Math.hypot(...scale.x);
  const sdDeg = Math.hypot(
    spread((places) => offDegOf({ ...whole, corners: places }, picture) ?? NaN, inOrder, cornerSdPx),
    change({ corners: leaning(inOrder, ROLL_SD_DEG) }),
    change({ logDistance: known.log + known.sd }),
    change({ hitterX: hitter + hitterSd }),
  );
  if (!Number.isFinite(sdDeg)) return noLine("the plate is too small in the picture to say anything");
  return { line: { offDeg: off, sdDeg, isSignKnown: true, source: "plate" }, reason: null };
}

/** The corners turned about the ring until they lie as the plate's: the best fit among those that this view allows. */
function ordered(ring: readonly PlanePoint[], picture: PictureOfView): readonly PlanePoint[] | null {
  let best: { places: readonly PlanePoint[]; miss: number } | null = null;
  for (let turn = 0; turn < ring.length; turn++) {
    const places = [...ring.slice(turn), ...ring.slice(0, turn)];
    const fit = fitHomography(PLATE_CORNERS_M, places);
    const off = fit && directionOf(fit, picture);
    if (!fit || off === null || Math.abs(off) > MOST_OFF_DEG || !isInFront(fit)) continue;
    const miss = rmsMiss(fit, PLATE_CORNERS_M, places);
    if (!best || miss < best.miss) best = { places, miss };
  }
  return best?.places ?? null;
}

/** No corner lies behind the camera. */
function isInFront(h: Homography): boolean {
  return PLATE_CORNERS_M.every(([x, z]) => h[6] * x + h[7] * z + h[8] > 0);
}

/** Angle off the ideal line as the plate's middle sees the camera, degrees. */
function directionOf(fit: Homography, { view }: PictureOfView): number | null {
  const map = localMap(fit, PLATE_MIDDLE_M);
  return map && wrapDeg((Math.atan2(-map.x[1], map.x[0]) * 180) / Math.PI - IDEAL_YAW_DEG[view]);
}

/** Angle off the ideal line as what the view is about sees the camera, degrees. */
function offDegOf({ corners, hitterX, logDistance }: Posture, picture: PictureOfView): number | null {
  const fit = fitHomography(PLATE_CORNERS_M, corners);
  const map = fit && localMap(fit, PLATE_MIDDLE_M);
  const off = fit && directionOf(fit, picture);
  if (!map || off === null) return null;
  const aside = (hitterX - map.at[0]) * (picture.view === "side" ? 1 : 0.5);
  const focalPx = Math.hypot(...map.x) * Math.exp(logDistance);
  return wrapDeg(off - (Math.atan2(aside, focalPx) * 180) / Math.PI);
}

/** Height of the lens over its distance, from how flat the plate looks: pixels down for a step toward the camera over pixels across. */
function flatnessOf(corners: readonly PlanePoint[]): number | null {
  const fit = fitHomography(PLATE_CORNERS_M, corners);
  const map = fit && localMap(fit, PLATE_MIDDLE_M);
  if (!map) return null;
  const across = Math.hypot(...map.x);
  const down = (map.y[0] * -map.x[1] + map.y[1] * map.x[0]) / across;
  return down > 0 ? down / across : null;
}

/** SD of a number made from corners that each carry the same noise on both axes: central differences, root of the sum of squares. */
function spread(valueOf: (corners: readonly PlanePoint[]) => number, corners: readonly PlanePoint[], sdPx: number): number {
  const step = sdPx / 2;
  let squares = 0;
  corners.forEach((_, corner) => {
    for (const [dx, dy] of [[step, 0], [0, step]] as const) {
      const moved = (by: number) => corners.map(([x, y], i): PlanePoint => (i === corner ? [x + by * dx, y + by * dy] : [x, y]));
      squares += (wrapDeg(valueOf(moved(1)) - valueOf(moved(-1))) / 2 / step) ** 2;
    }
  });
  return Math.sqrt(squares) * sdPx;
}

/** The corners as a camera that leans to a side would show them. */
function leaning(corners: readonly PlanePoint[], deg: number): readonly PlanePoint[] {
  const [cx, cy] = middleOf(corners);
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return corners.map(([x, y]): PlanePoint => [cx + c * (x - cx) - s * (y - cy), cy + s * (x - cx) + c * (y - cy)]);
}

/** Two estimates of a logarithm weighed by their SDs; the first alone where the second is not known. */
function blend(a: { log: number; sd: number }, b: { log: number; sd: number }): { log: number; sd: number } {
  if (!Number.isFinite(b.log) || !(b.sd > 0 && b.sd < Infinity)) return a;
  const [wa, wb] = [1 / a.sd ** 2, 1 / b.sd ** 2];
  return { log: (wa * a.log + wb * b.log) / (wa + wb), sd: 1 / Math.sqrt(wa + wb) };
}
