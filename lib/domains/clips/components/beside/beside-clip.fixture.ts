import type { ClipView } from "../../view";

/** A clip of 1280 × 720 for tests: what is not given is plain. */
export function besideClip({ ticks, ...given }: Partial<ClipView> & { readonly ticks: readonly number[] }): ClipView {
  return {
    id: "clip", swingId: "swing", playerId: "player", playerName: "Pia Testfield", view: "side", isMirrored: false, side: "right",
    facts: { task: "tee", pitchHeight: "belt", pitchSide: "middle", effort: "game" }, widthPx: 1280, heightPx: 720,
    frameTimes: { timeBaseNum: 1, timeBaseDen: 90_000, ticks }, realSecondsPerFileSecond: 1, timeBasis: "measured", steppingUrl: "/stepping", posterUrl: null,
    events: [], points: [], unseenPoints: [], marks: [], abilities: { canMeasure: true, canMark: true }, ...given,
  };
}
