import { bodyAllowance } from "@/lib/measure/body/body-allowance";
import type { BodyPlace, BodySegment, PlaceMix, SegmentTable } from "@/lib/measure/body/segment-table";
import { unknownBecause, type Answer } from "@/lib/measure/several/unknown";

/** A place in the picture plane; any unit, any two axes that are not skewed. */
export interface PlanePlace {
  readonly h: number;
  readonly v: number;
  /** SD of one coordinate; left out = exact. */
  readonly sd?: number;
}

export type BodyPlaces = Readonly<Partial<Record<BodyPlace, PlanePlace>>>;

/** Centre of mass in the units of the places. */
export interface CentreOfMass {
  readonly h: number;
  readonly v: number;
  /** SD along each axis: noise of the points, and what a body may differ from the table. */
  readonly sdH: number;
  readonly sdV: number;
  /** What was taken in the place of ends that are not placed, as clauses. */
  readonly assumed: readonly string[];
  readonly segments: readonly { readonly id: string; readonly massShare: number; readonly h: number; readonly v: number }[];
}

/**
 * Centre of mass of the body from its points in the picture plane, the bat not counted. Depth is not seen: it is the
 * shadow of the true one. Unknown when a segment's ends are not placed, naming them.
 * @param ageYears completed years; a growing body has a wider allowance
 * @throws RangeError for an age below 0
 */
export function centreOfMass(places: BodyPlaces, table: SegmentTable, ageYears: number | null): Answer<CentreOfMass> {
  const allowance = bodyAllowance(ageYears);
  const assumed = new Set<string>();
  const missing = new Set<string>();
  const weights = new Map<BodyPlace, number>();
  const segments = table.segments.flatMap((segment) => {
    const mix = mixOf(segment, places);
    if (!mix) {
      for (const place of missingOf(segment, places)) missing.add(place);
      return [];
    }
    if (mix.say !== null) assumed.add(mix.say);
    for (const [place, weight] of entries(mix.mix)) weights.set(place, (weights.get(place) ?? 0) + weight * segment.massShare);
    return [{ id: segment.id, massShare: segment.massShare, h: along(mix.mix, places, "h"), v: along(mix.mix, places, "v") }];
  });
  if (missing.size > 0) return unknownBecause(`points are not placed: ${[...missing].join(", ")}`);
  const sum = (of: (segment: (typeof segments)[number]) => number) => segments.reduce((total, segment) => total + segment.massShare * of(segment), 0);
  const [h, v] = [sum((it) => it.h), sum((it) => it.v)];
  const noise = [...weights].reduce((total, [place, weight]) => total + (weight * (places[place]?.sd ?? 0)) ** 2, 0);
  // Each mass share on its own may be off; the centre moves by its distance from the centre.
  const body = (axis: "h" | "v", centre: number) => segments.reduce((total, it) => total + (allowance.sd * it.massShare * (it[axis] - centre)) ** 2, 0);
  return { h, v, sdH: Math.sqrt(noise + body("h", h)), sdV: Math.sqrt(noise + body("v", v)), assumed: [...assumed], segments };
}

const entries = (mix: PlaceMix) => Object.entries(mix) as [BodyPlace, number][];

function isPlaced(places: BodyPlaces, place: BodyPlace): boolean {
  const found = places[place];
  return found !== undefined && Number.isFinite(found.h) && Number.isFinite(found.v);
}

const isWhole = (mix: PlaceMix, places: BodyPlaces) => entries(mix).every(([place, weight]) => weight === 0 || isPlaced(places, place));

/** A segment's centre as a mix of places: between its own ends, else at what stands for them; null when neither is placed. */
function mixOf(segment: BodySegment, places: BodyPlaces): { readonly mix: PlaceMix; readonly say: string | null } | null {
  const mix: Partial<Record<BodyPlace, number>> = {};
  const add = (end: PlaceMix, share: number) => {
    for (const [place, weight] of entries(end)) if (share !== 0) mix[place] = (mix[place] ?? 0) + weight * share;
  };
  add(segment.from, 1 - segment.along);
  add(segment.to, segment.along);
  if (isWhole(mix, places)) return { mix, say: null };
  return segment.instead && isWhole(segment.instead.at, places) ? { mix: segment.instead.at, say: segment.instead.say } : null;
}

function missingOf({ from, to, along: share, instead }: BodySegment, places: BodyPlaces): BodyPlace[] {
  const needed = instead ? [instead.at] : [share < 1 ? from : {}, share > 0 ? to : {}];
  return needed.flatMap((mix) => entries(mix).flatMap(([place]) => (isPlaced(places, place) ? [] : [place])));
}

function along(mix: PlaceMix, places: BodyPlaces, axis: "h" | "v"): number {
  return entries(mix).reduce((sum, [place, weight]) => sum + weight * (places[place]?.[axis] ?? NaN), 0);
}
