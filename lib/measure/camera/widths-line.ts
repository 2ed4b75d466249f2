import { clipContext, type ClipContext } from "@/lib/measure/clip-context";
import type { ClipInput, SwingInput } from "@/lib/measure/clip-input";
import { median, medianSdFactor, percentile } from "@/lib/measure/order-statistics";
import type { PointId } from "@/lib/measure/points";
import { STARTER_RULES, type ReadingRules } from "@/lib/measure/reading-rules";
import { framesWithAll, stanceFrames } from "@/lib/measure/stance-frames";
import type { ClipTracks } from "@/lib/measure/tracks";
import { noLine, type LineResult } from "./camera-line";
import { turnFromOffset, turnFromWidth, type WidthTurn } from "./width-turn";

/**
 * How hitters set up, as SDs in degrees about square: each part by itself, and what all parts of one hitter share (one who
 * sets up closed is closed from the feet up). Coaching judgement; this is what makes the estimate rough.
 */
export const SET_UP_SD_DEG = { shoulders: 9, hips: 7, feet: 7, backFoot: 9, shared: 7 } as const;

/** Foot and stance in torso lengths, with their spread between people. Source of the foot: conventions `Fs`; the stance is judgement. */
const FOOT = { inTorsos: 0.52, spread: 0.12 } as const;
const STANCE = { inTorsos: 1.3, spread: 0.3 } as const;

/** Widths that look whole leave anything up to so much to either side: the 20 degrees that a width cannot tell, and noise. */
const LOOKS_WHOLE_DEG = 30;

interface Cue extends WidthTurn {
  /** How far the part seems turned open, toward the pitcher. */
  readonly turnDeg: number;
}

/**
 * The camera's angle off its line from how the body looks at the stance. A hitter stands with feet, hips and shoulders about
 * along the line from mound to plate and the back foot across it: what seems turned away from that is the camera's turn,
 * the other way round, or the hitter's own. Front and rear view: shoulders, hips and feet are seen end-on, signed. Side view: the back
 * foot is seen end-on, signed; shoulders and hips are seen whole, so their widths say "turned" from 20 degrees on only, and
 * not to which side. Never better than about 9 degrees, since hitters differ: rough, good to notice a camera far off.
 * Null with its reason without the points or before contact is marked.
 */
export function widthsLine(clip: ClipInput, swing: SwingInput, rules: ReadingRules = STARTER_RULES): LineResult {
  const context = clipContext(clip, swing, rules);
  if (!context.tracks || clip.view === null) return noLine("the view or the real time of the frames is not known");
  const signed = clip.view === "side" ? backFootCue(context, context.tracks) : endOnCues(context, context.tracks);
  const whole = clip.view === "side" ? wholeWidthTurn(context, context.tracks) : null;
  if (signed.length === 0 && whole === null) return noLine(clip.view === "side" ? "place the back foot's heel and toe, or shoulders and hips, at the stance" : "place shoulders, hips or ankles at the stance");
  const { turnDeg, sdDeg } = weighed(signed);
  const own = signed.length > 0 ? Math.hypot(sdDeg, SET_UP_SD_DEG.shared) : Infinity;
  if (whole === null) return { line: { offDeg: -turnDeg, sdDeg: own, isSignKnown: true, source: "widths" }, reason: null };
  if (whole === "square") {
    const square = { turnDeg: 0, sdDeg: LOOKS_WHOLE_DEG / Math.sqrt(3) };
    const both = weighed([...(signed.length > 0 ? [{ turnDeg, sdDeg: own }] : []), { ...square, sdDeg: Math.hypot(square.sdDeg, SET_UP_SD_DEG.shared) }]);
    return { line: { offDeg: -both.turnDeg, sdDeg: both.sdDeg, isSignKnown: true, source: "widths" }, reason: null };
  }
  const turned = Math.hypot(whole.sdDeg, SET_UP_SD_DEG.shared);
  if (Math.abs(turnDeg) < own) return { line: { offDeg: whole.turnDeg, sdDeg: turned, isSignKnown: false, source: "widths" }, reason: null };
  const both = weighed([{ turnDeg, sdDeg: own }, { turnDeg: Math.sign(turnDeg) * whole.turnDeg, sdDeg: turned }]);
  return { line: { offDeg: -both.turnDeg, sdDeg: Math.max(both.sdDeg, SET_UP_SD_DEG.shared), isSignKnown: true, source: "widths" }, reason: null };
}

/** Mean by inverse variance; an SD of Infinity without any. */
function weighed(cues: readonly Cue[]): WidthTurn {
  const weights = cues.map(({ sdDeg }) => 1 / sdDeg ** 2);
  const sum = weights.reduce((total, weight) => total + weight, 0);
  if (sum === 0) return { turnDeg: 0, sdDeg: Infinity };
  return { turnDeg: cues.reduce((total, { turnDeg }, i) => total + turnDeg * (weights[i] ?? 0), 0) / sum, sdDeg: 1 / Math.sqrt(sum) };
}

function endOnCues(context: ClipContext, tracks: ClipTracks): readonly Cue[] {
  const torso = context.length("T");
  const spans = [
    { from: "sh_f", to: "sh_b", whole: context.length("Ws"), own: SET_UP_SD_DEG.shoulders },
    { from: "hip_f", to: "hip_b", whole: context.length("Wh"), own: SET_UP_SD_DEG.hips },
    { from: "an_f", to: "an_b", whole: torso && { value: STANCE.inTorsos * torso.value, sd: STANCE.spread * STANCE.inTorsos * torso.value }, own: SET_UP_SD_DEG.feet },
  ] as const;
  return spans.flatMap(({ from, to, whole, own }) => (whole ? cueOf(context, tracks, from, to, whole, own) : []));
}

function backFootCue(context: ClipContext, tracks: ClipTracks): readonly Cue[] {
  const torso = context.length("T");
  if (!torso) return [];
  const foot = FOOT.inTorsos * torso.value;
  return cueOf(context, tracks, "heel_b", "toe_b", { value: foot, sd: Math.hypot(FOOT.spread * foot, FOOT.inTorsos * torso.sd) }, SET_UP_SD_DEG.backFoot);
}

/** How far a part that should be end-on seems turned open at the stance. */
function cueOf(context: ClipContext, tracks: ClipTracks, from: PointId, to: PointId, whole: { readonly value: number; readonly sd: number }, ownSdDeg: number): readonly Cue[] {
  const seen = acrossAtStance(context, tracks, from, to);
  const turn = seen && turnFromOffset(seen.value, whole.value, seen.sd, whole.sd);
  return turn ? [{ turnDeg: turn.turnDeg, sdDeg: Math.hypot(turn.sdDeg, ownSdDeg) }] : [];
}

/** Pixels from one point to the other across the view, median over the stance frames. */
function acrossAtStance(context: ClipContext, tracks: ClipTracks, from: PointId, to: PointId): { value: number; sd: number } | null {
  const { frames } = stanceFrames(tracks, [from, to], context.swing.events);
  if (frames.length === 0) return null;
  const isSuggested = frames.some((frame) => [from, to].some((point) => tracks.byPoint[point]?.suggestedFrames.has(frame)));
  const sd = Math.hypot(context.noise(from, isSuggested), context.noise(to, isSuggested)) * medianSdFactor(frames.length);
  return { value: median(frames.map((frame) => across(tracks, from, to, frame))), sd };
}

function across(tracks: ClipTracks, from: PointId, to: PointId, frame: number): number {
  return (tracks.byPoint[to]?.h[frame] ?? NaN) - (tracks.byPoint[from]?.h[frame] ?? NaN);
}

/** Fewer frames than this do not show shoulders and hips turning through square. */
const LEAST_FRAMES = 5;

/**
 * Side view: how far shoulders and hips at the stance are turned out of the picture, against the widest they look while they
 * turn through the swing; "square" where that is less than can be told; null without the points.
 */
function wholeWidthTurn(context: ClipContext, tracks: ClipTracks): WidthTurn | "square" | null {
  const pairs = [["sh_f", "sh_b", SET_UP_SD_DEG.shoulders], ["hip_f", "hip_b", SET_UP_SD_DEG.hips]] as const;
  const found = pairs.flatMap(([front, back, own]): (WidthTurn | "square")[] => {
    const seen = acrossAtStance(context, tracks, front, back);
    const frames = framesWithAll(tracks, [front, back]);
    if (!seen || frames.length < LEAST_FRAMES) return [];
    const whole = percentile(frames.map((frame) => Math.abs(across(tracks, front, back, frame))), 0.95);
    const result = turnFromWidth(Math.abs(seen.value), whole, seen.sd, seen.sd);
    if (!result.turn || result.isTooSquare) return result.turn || result.isTooSquare ? ["square"] : [];
    return [{ turnDeg: result.turn.turnDeg, sdDeg: Math.hypot(result.turn.sdDeg, own) }];
  });
  if (found.length === 0) return null;
  const turned = found.filter((it) => it !== "square");
  return turned.length === found.length ? weighed(turned) : "square";
}
