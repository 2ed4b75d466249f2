import type { PointId } from "@/lib/measure/points";

/** Places that segment tables speak of: our points, and some that a person may place or that stay unknown. */
export type BodyPlace = PointId | "knuckle_f" | "knuckle_b" | "vertex" | "chin";

/** Weights of places that make the end of a segment; they add up to 1. */
export type PlaceMix = Readonly<Partial<Record<BodyPlace, number>>>;

/** One part of the body. */
export interface BodySegment {
  readonly id: string;
  /** Share of the body's mass; the shares of a table add up to 1. */
  readonly massShare: number;
  readonly from: PlaceMix;
  readonly to: PlaceMix;
  /** Where its centre of mass lies, as a share of the way from `from` to `to`. */
  readonly along: number;
  /** Where it is taken instead when one of its own ends is not placed, and how that is said. */
  readonly instead?: { readonly at: PlaceMix; readonly say: string };
}

/** A table of one source. Tables are never mixed: thigh and trunk mean other stretches in each. All describe adults. */
export interface SegmentTable {
  readonly id: "winter" | "de-leva-male" | "de-leva-female";
  readonly source: string;
  readonly segments: readonly BodySegment[];
}

/** Mass share and way along, as published. */
type Published = readonly [massShare: number, along: number];

const MIDHIP: PlaceMix = { hip_f: 0.5, hip_b: 0.5 };
const MIDSHOULDER: PlaceMix = { sh_f: 0.5, sh_b: 0.5 };
const MIDEARS: PlaceMix = { ear_f: 0.5, ear_b: 0.5 };

function limbs(published: Readonly<Record<"upper arm" | "forearm" | "hand" | "thigh" | "shank" | "foot", Published>>, footFrom: "an" | "heel"): BodySegment[] {
  return (["f", "b"] as const).flatMap((side): BodySegment[] => {
    const at = (name: "sh" | "el" | "wr" | "hip" | "kn" | "an" | "heel" | "toe" | "knuckle"): PlaceMix => ({ [`${name}_${side}`]: 1 });
    const limb = (id: keyof typeof published, from: PlaceMix, to: PlaceMix): BodySegment => ({ id: `${id} ${side}`, massShare: published[id][0], along: published[id][1], from, to });
    return [
      limb("upper arm", at("sh"), at("el")),
      limb("forearm", at("el"), at("wr")),
      { ...limb("hand", at("wr"), at("knuckle")), instead: { at: at("wr"), say: "the hands are taken at the wrists" } },
      limb("thigh", at("hip"), at("kn")),
      limb("shank", at("kn"), at("an")),
      limb("foot", at(footFrom), at("toe")),
    ];
  });
}

/** Divides by the sum, since published shares are rounded. */
function normalised(segments: readonly BodySegment[]): readonly BodySegment[] {
  const sum = massSum(segments);
  return segments.map((segment) => ({ ...segment, massShare: segment.massShare / sum }));
}

/** Sum of mass shares. */
export function massSum(segments: readonly Pick<BodySegment, "massShare">[]): number {
  return segments.reduce((sum, { massShare }) => sum + massShare, 0);
}

/** The shares as published, before they are divided by their sum. */
export const PUBLISHED_SEGMENTS: Readonly<Record<SegmentTable["id"], readonly BodySegment[]>> = {
  winter: [
    { id: "head and neck", massShare: 0.081, from: MIDSHOULDER, to: MIDEARS, along: 1 },
    { id: "trunk", massShare: 0.497, from: MIDHIP, to: MIDSHOULDER, along: 0.5 },
    ...limbs({ "upper arm": [0.028, 0.436], forearm: [0.016, 0.43], hand: [0.006, 0.506], thigh: [0.1, 0.433], shank: [0.0465, 0.433], foot: [0.0145, 0.5] }, "an"),
  ],
  "de-leva-male": deLeva([0.0694, 0.5976], [0.4346, 0.431], { "upper arm": [0.0271, 0.5772], forearm: [0.0162, 0.4574], hand: [0.0061, 0.79], thigh: [0.1416, 0.4095], shank: [0.0433, 0.4395], foot: [0.0137, 0.4415] }),
  "de-leva-female": deLeva([0.0668, 0.5894], [0.4257, 0.3782], { "upper arm": [0.0255, 0.5754], forearm: [0.0138, 0.4559], hand: [0.0056, 0.7474], thigh: [0.1478, 0.3612], shank: [0.0481, 0.4352], foot: [0.0129, 0.4014] }),
};

function deLeva(head: Published, trunk: Published, others: Parameters<typeof limbs>[0]): readonly BodySegment[] {
  return [
    { id: "head", massShare: head[0], along: head[1], from: { vertex: 1 }, to: { chin: 1 }, instead: { at: MIDEARS, say: "the head is taken at the ears" } },
    { id: "trunk", massShare: trunk[0], along: trunk[1], from: MIDSHOULDER, to: MIDHIP },
    ...limbs(others, "heel"),
  ];
}

const DE_LEVA = "Zatsiorsky and Seluyanov's, adjusted by de Leva 1996, J Biomech 29:1223-1230; trunk from mid-shoulder to mid-hip";

/** Dempster's, as in Winter 2009; the head's centre lies at the ear. */
export const WINTER: SegmentTable = { id: "winter", source: "Dempster's, as in Winter 2009", segments: normalised(PUBLISHED_SEGMENTS.winter) };
export const DE_LEVA_MALE: SegmentTable = { id: "de-leva-male", source: DE_LEVA, segments: normalised(PUBLISHED_SEGMENTS["de-leva-male"]) };
export const DE_LEVA_FEMALE: SegmentTable = { id: "de-leva-female", source: DE_LEVA, segments: normalised(PUBLISHED_SEGMENTS["de-leva-female"]) };
