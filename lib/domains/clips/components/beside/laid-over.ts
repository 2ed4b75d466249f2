import { toScreen, type Placement, type Spot } from "../../rules";
import type { ClipView, EventId, PointId } from "../../view";
import type { AnchorChoice } from "./anchor-taps";

/** By what the pictures are made equally large. */
export interface TorsoScale {
  /** At which event the torso was taken on all clips; `frames` = the median of all frames that show it; null = not known. */
  readonly at: "stance" | "contact" | "frames" | null;
  /** Torso in picture pixels, by clip. */
  readonly torsoPx: Readonly<Record<string, number>>;
  /** Clips on which shoulders and hips are not placed. */
  readonly missing: readonly string[];
}

const torsoPoints: readonly PointId[] = ["sh_f", "sh_b", "hip_f", "hip_b"];

/**
 * The torso, middle of the shoulders to middle of the hips, at the same instant on all clips: the stance, else contact,
 * else the median over every frame that shows it. A clip without those points leaves all pictures at one height.
 */
export function torsoScale(clips: readonly ClipView[]): TorsoScale {
  for (const at of ["stance", "contact"] as const) {
    const found = clips.flatMap((clip) => entry(clip, torsoAt(clip, frameOfEvent(clip, at))));
    if (found.length === clips.length) return { at, torsoPx: Object.fromEntries(found), missing: [] };
  }
  const found = clips.flatMap((clip) => entry(clip, medianTorso(clip)));
  const missing = clips.filter((clip) => !found.some(([id]) => id === clip.id)).map(({ id }) => id);
  return missing.length > 0 ? { at: null, torsoPx: {}, missing } : { at: "frames", torsoPx: Object.fromEntries(found), missing };
}

const entry = ({ id }: ClipView, px: number | null): readonly (readonly [string, number])[] => (px === null || px <= 0 ? [] : [[id, px]]);

function frameOfEvent(clip: ClipView, event: EventId): number | null {
  return clip.events.find((it) => it.event === event)?.frameIndex ?? null;
}

function middleOf(clip: ClipView, frameIndex: number | null, points: readonly PointId[]): Spot | null {
  const found = points.flatMap((point) => clip.points.filter((it) => it.frameIndex === frameIndex && it.point === point).slice(0, 1));
  if (frameIndex === null || found.length < points.length) return null;
  return { x: mean(found.map(({ x }) => x)), y: mean(found.map(({ y }) => y)) };
}

const mean = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0) / numbers.length;

function torsoAt(clip: ClipView, frameIndex: number | null): number | null {
  const shoulders = middleOf(clip, frameIndex, ["sh_f", "sh_b"]);
  const hips = middleOf(clip, frameIndex, ["hip_f", "hip_b"]);
  return shoulders && hips ? Math.hypot(shoulders.x - hips.x, shoulders.y - hips.y) : null;
}

function medianTorso(clip: ClipView): number | null {
  const frames = new Set(clip.points.filter((it) => torsoPoints.includes(it.point)).map((it) => it.frameIndex));
  const lengths = [...frames].flatMap((frame) => torsoAt(clip, frame) ?? []).sort((a, b) => a - b);
  return lengths[lengths.length >> 1] ?? null;
}

/** Which place of each picture is laid on the first one's. */
export interface Anchors {
  readonly by: "hips" | "back-foot" | "tapped" | "middle";
  readonly at: "stance" | "contact" | null;
  readonly spots: Readonly<Record<string, Spot>>;
  /** Clips on which the place that was asked for is not known: then the middles of the pictures lie on one another. */
  readonly missing: readonly string[];
}

const footPoints: readonly (readonly PointId[])[] = [["an_b"], ["heel_b"], ["toe_b"]];

/** The places by which clips are anchored: as they stood at the stance, else at contact, so that travel stays visible. */
export function anchorsOf(clips: readonly ClipView[], choice: AnchorChoice, taps: Readonly<Record<string, Spot>>): Anchors {
  const whole = (missing: readonly string[]): Anchors => ({
    by: "middle", at: null, missing, spots: Object.fromEntries(clips.map((clip) => [clip.id, { x: clip.widthPx / 2, y: clip.heightPx / 2 }])),
  });
  if (choice === "tapped") {
    const untapped = clips.filter(({ id }) => !taps[id]).map(({ id }) => id);
    return untapped.length > 0 ? whole(untapped) : { by: "tapped", at: null, spots: taps, missing: [] };
  }
  const ways = choice === "hips" ? [["hip_f", "hip_b"] as const] : footPoints;
  for (const at of ["stance", "contact"] as const) {
    for (const points of ways) {
      const spots = clips.map((clip) => middleOf(clip, frameOfEvent(clip, at), points));
      if (spots.every((it) => it !== null)) return { by: choice, at, missing: [], spots: Object.fromEntries(clips.map((clip, i) => [clip.id, spots[i] ?? { x: 0, y: 0 }])) };
    }
  }
  const known = (clip: ClipView) => (["stance", "contact"] as const).some((at) => ways.some((points) => middleOf(clip, frameOfEvent(clip, at), points)));
  const missing = clips.filter((clip) => !known(clip)).map(({ id }) => id);
  return whole(missing.length > 0 ? missing : clips.map(({ id }) => id));
}

/** Where another clip's picture lies when its anchor lies on the first one's and its torso is as long on the screen. */
export function placementOver(first: { readonly clip: ClipView; readonly placement: Placement }, clip: ClipView, isFlipped: boolean, torso: TorsoScale, anchors: Anchors): Placement {
  const [ours, theirs] = [torso.torsoPx[first.clip.id], torso.torsoPx[clip.id]];
  const larger = ours && theirs ? ours / theirs : first.clip.heightPx / clip.heightPx;
  const scale = first.placement.scale * larger;
  const on = toScreen(first.placement, anchors.spots[first.clip.id] ?? { x: 0, y: 0 });
  const own = anchors.spots[clip.id] ?? { x: 0, y: 0 };
  return { scale, dx: on.x - (isFlipped ? -own.x : own.x) * scale, dy: on.y - own.y * scale, isFlipped };
}
