import { expect, test } from "vitest";
import { besideClip } from "@/lib/domains/clips/components/beside/beside-clip.fixture";
import { besideReducer, startBeside, type BesideAction } from "@/lib/domains/clips/components/beside/beside-state";
import { lineUp } from "@/lib/domains/clips/components/beside/lined-clip";
import { pointIds, type ClipView } from "@/lib/domains/clips/view";
import { clipInput } from "@/lib/domains/measurement/rules";
import { readClip } from "@/lib/measure/read-clip";
import { swingSpec } from "@/seed/media/spec";
import { DEFINITIONS } from "./held-readings";
import { drawnSwing } from "./hitters";
import { markedSwing } from "./marked-swing";

const CAMERA = { hasCameraMoved: false, hasCameraZoomed: false, isStabilised: false, cameraOffDeg: 0, cameraOffSdDeg: null, cameraOffSource: "stated", plateMark: null } as const;

/** A left-hander's clip as the pages hold it, with the points that a coach places. */
function leftHander() {
  const { clip, swing } = markedSwing(drawnSwing(swingSpec({ view: "side", side: "left", seed: 11 })), { framesPerSecond: 120 });
  const times = clip.secondsFromContact ?? [];
  const ticks = times.map((seconds) => Math.round((seconds - (times[0] ?? 0)) * 1e6));
  const contact = times.reduce((best, seconds, i) => (Math.abs(seconds) < Math.abs(times[best] ?? Infinity) ? i : best), 0);
  const view: ClipView = besideClip({
    id: "left", side: "left", ticks: [], frameTimes: { timeBaseNum: 1, timeBaseDen: 1_000_000, ticks }, widthPx: clip.widthPx, heightPx: clip.heightPx,
    events: [{ event: "contact", frameIndex: contact, tick: ticks[contact] ?? 0, source: "coach", sdSeconds: null }],
    points: Object.entries(clip.points).flatMap(([frame, own]) =>
      pointIds.flatMap((point) => (own[point] ? [{ frameIndex: Number(frame), point, x: own[point].x, y: own[point].y, source: "coach" as const }] : [])),
    ),
  });
  return { view, swing };
}

test("N14: whatever is done to look at a left-hander beside others, flipped, laid over or stretched, no reading of him changes, in value or in sign", () => {
  const { view, swing } = leftHander();
  const read = (clip: ClipView) => readClip(DEFINITIONS.filter(({ scope, views }) => scope === "clip" && views.measured.includes("side")), clipInput(clip, CAMERA), swing).map(({ checkpointId, value, sd }) => ({ checkpointId, value, sd }));
  const before = read(view);
  expect(before.filter(({ value }) => value !== null && value !== 0).length).toBeGreaterThan(8);
  const kept = JSON.stringify(view);
  const clips = lineUp([besideClip({ id: "right", ticks: [0, 375, 750], events: [{ event: "contact", frameIndex: 1, tick: 375, source: "coach", sdSeconds: null }] }), view], true);
  const actions: readonly BesideAction[] = [
    { kind: "flip", clipId: "left" }, { kind: "stretch", isStretched: true }, { kind: "lay-over", isLaidOver: true }, { kind: "anchor", anchor: "tapped" },
    { kind: "tap-place" }, { kind: "tap-place" }, { kind: "look", clipId: "left", look: { zoom: 3, centre: { x: 1, y: 1 } } }, { kind: "step", by: 1 },
  ];
  const state = actions.reduce(besideReducer(clips), startBeside({ clips }));
  expect(state.places.left?.isFlipped).toBe(true);
  const shown = clips.find(({ id }) => id === "left")?.clip;
  expect(JSON.stringify(shown)).toBe(kept);
  expect(read(shown ?? besideClip({ ticks: [] }))).toEqual(before);
});
