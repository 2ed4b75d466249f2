import type { BesideState } from "@/lib/domains/clips/components/beside/beside-state";
import type { Anchors, TorsoScale } from "@/lib/domains/clips/components/beside/laid-over";
import { linedClip, type LinedClip } from "@/lib/domains/clips/components/beside/lined-clip";
import type { Look } from "@/lib/domains/clips/rules";
import type { ClipBeside, ClipView, MarkView } from "@/lib/domains/clips/view";
import type { Stand } from "../../list/rules";
import type { ListClip, TakeList } from "../../list/schema";
import { notShownWords, type ClipShown } from "../../view";

/** The clips of a take as the page shows them: each as it may be shown today, or an empty place that says why not. */
export function clipsOfTake(list: TakeList, shown: Readonly<Record<string, ClipShown>>): { readonly clips: readonly ClipBeside[]; readonly lined: readonly LinedClip[] } {
  const clips = list.clips.map((it): ClipBeside => {
    const { clip = null, why = notShownWords.gone } = shown[it.clipId] ?? {};
    const words = { caption: it.caption, startsFlipped: false, unlike: [], notNoted: [] };
    // Time runs as it ran when it was told, whatever was set otherwise since.
    if (clip) return { ...words, clip: { ...clip, realSecondsPerFileSecond: it.realSecondsPerFileSecond }, isShown: true };
    return { ...words, clip: emptyClip(it), isShown: false, whyNotShown: why ?? notShownWords.gone };
  });
  const lined = clips.map(({ clip, isShown }, i): LinedClip => {
    const zeroTick = list.clips[i]?.zeroTick ?? null;
    return { ...linedClip(clip), zeroTick: isShown ? zeroTick : null, notLined: zeroTick === null || !isShown ? "no-contact" : null };
  });
  return { clips, lined };
}

function emptyClip({ clipId, widthPx, heightPx, realSecondsPerFileSecond }: ListClip): ClipView {
  return {
    id: clipId, swingId: "", playerId: "", playerName: "", view: "side", isMirrored: false, side: "right", facts: { task: null, pitchHeight: null, pitchSide: null, effort: null }, widthPx, heightPx,
    frameTimes: { timeBaseNum: 1, timeBaseDen: 1, ticks: [0] }, realSecondsPerFileSecond, timeBasis: "measured", steppingUrl: "", posterUrl: null,
    events: [], points: [], unseenPoints: [], marks: [], abilities: { canMeasure: false, canMark: false },
  };
}

/** The page's state for what stands at an instant. @param own where the one who looks has come closer; it holds while the coach shows a whole picture */
export function stateOf(list: TakeList, stand: Stand, own: Readonly<Record<string, Look>>): BesideState {
  const places = list.clips.map(({ clipId }, i) => {
    const { zoom = 1, x = 0, y = 0 } = stand.looks[i] ?? {};
    const look = zoom > 1.001 ? { zoom, centre: { x, y } } : (own[clipId] ?? { zoom, centre: { x, y } });
    return [clipId, { frameIndex: stand.frames[i] ?? 0, isFlipped: stand.flips[i] ?? false, look }] as const;
  });
  return {
    places: Object.fromEntries(places), inHand: list.clips[stand.inHand]?.clipId ?? list.clips[0]?.clipId ?? "", travel: 1, isLocked: stand.isLocked, isPlaying: stand.isPlaying, rate: 1 / 4,
    isStretched: false, isLaidOver: stand.over !== null, opacity: stand.over?.opacity ?? 0.5, anchor: "hips", taps: {}, tapping: null, hasPoints: stand.hasPoints,
  };
}

/** What is drawn at an instant, by clip. */
export function marksOf(list: TakeList, stand: Stand): Readonly<Record<string, readonly MarkView[]>> {
  return Object.fromEntries(list.clips.map(({ clipId }, i) => [clipId, stand.marks.filter(({ clip }) => clip === i).map(({ id, frame, shape }) => ({ id, frameIndex: frame, shape }))]));
}

/** How clips lie over one another at an instant; null while they stand side by side. */
export function overOfStand(list: TakeList, stand: Stand): { readonly torso: TorsoScale; readonly anchors: Anchors } | null {
  const { over } = stand;
  if (!over) return null;
  const byClip = <T>(of: (i: number) => T | null | undefined) => Object.fromEntries(list.clips.flatMap(({ clipId }, i) => { const it = of(i); return it === null || it === undefined ? [] : [[clipId, it] as const]; }));
  const torsos = byClip((i) => over.torsosPx[i]);
  const isWhole = Object.keys(torsos).length === list.clips.length;
  return { torso: { at: isWhole ? "frames" : null, torsoPx: isWhole ? torsos : {}, missing: [] }, anchors: { by: "tapped", at: null, spots: byClip((i) => over.spots[i]), missing: [] } };
}
