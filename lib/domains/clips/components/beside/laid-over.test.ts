import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placementOf, toPicture, toScreen, wholeLook } from "../../rules";
import type { ClipView, EventId, PointId } from "../../view";
import { besideClip } from "./beside-clip.fixture";
import { anchorsOf, placementOver, torsoScale } from "./laid-over";

const ticks = [0, 375, 750, 1125, 1500];
const event = (event: EventId, frameIndex: number) => ({ event, frameIndex, tick: ticks[frameIndex] ?? 0, source: "coach" as const, sdSeconds: null });
const body = (frameIndex: number, torso: number, hip: { x: number; y: number }) =>
  ([["hip_f", 10, 0], ["hip_b", -10, 0], ["sh_f", 20, -torso], ["sh_b", -20, -torso], ["an_b", -40, 300]] as const).map(([point, dx, dy]) => ({
    frameIndex, point: point as PointId, x: hip.x + dx, y: hip.y + dy, source: "coach" as const,
  }));
const hitter = (id: string, torso: number, hip: { x: number; y: number }, more: Partial<ClipView> = {}) =>
  besideClip({ id, ticks, events: [event("stance", 0), event("contact", 3)], points: [...body(0, torso, hip), ...body(3, torso * 0.9, { x: hip.x + 50, y: hip.y })], ...more });
const box = { width: 900, height: 520 };
const placed = (clip: ClipView, isFlipped = false) => ({ clip, placement: placementOf(wholeLook({ width: clip.widthPx, height: clip.heightPx }), { width: clip.widthPx, height: clip.heightPx }, box, isFlipped) });

describe("laid over one another", () => {
  test("torsos are equally long on the screen and the anchors lie on one another, whoever is flipped", () => {
    fc.assert(
      fc.property(fc.integer({ min: 60, max: 300 }), fc.integer({ min: 60, max: 300 }), fc.boolean(), fc.boolean(), fc.constantFrom("hips" as const, "back-foot" as const), (one, two, flipsFirst, flipsOther, choice) => {
        const [a, b] = [hitter("a", one, { x: 600, y: 400 }), hitter("b", two, { x: 500, y: 420 })];
        const first = placed(a, flipsFirst);
        const torso = torsoScale([a, b]);
        const anchors = anchorsOf([a, b], choice, {});
        const other = placementOver(first, b, flipsOther, torso, anchors);
        expect(one * first.placement.scale).toBeCloseTo(two * other.scale, 6);
        const [on, own] = [toScreen(first.placement, anchors.spots.a ?? { x: 0, y: 0 }), toScreen(other, anchors.spots.b ?? { x: 0, y: 0 })];
        expect(own.x).toBeCloseTo(on.x, 6);
        expect(own.y).toBeCloseTo(on.y, 6);
      }),
    );
  });
  test("the torso is taken at the stance; where one clip lacks it there, at contact on all of them", () => {
    const [a, b] = [hitter("a", 100, { x: 600, y: 400 }), hitter("b", 120, { x: 600, y: 400 })];
    expect(torsoScale([a, b])).toEqual({ at: "stance", torsoPx: { a: 100, b: 120 }, missing: [] });
    const late = { ...b, points: b.points.filter((it) => it.frameIndex === 3) };
    expect(torsoScale([a, late])).toMatchObject({ at: "contact", torsoPx: { a: 90, b: 108 } });
  });
  test("without shoulders and hips the clip is named and pictures are shown at one height", () => {
    const [a, b] = [hitter("a", 100, { x: 600, y: 400 }), hitter("b", 100, { x: 600, y: 400 }, { points: [], heightPx: 1080 })];
    const torso = torsoScale([a, b]);
    expect(torso).toEqual({ at: null, torsoPx: {}, missing: ["b"] });
    const anchors = anchorsOf([a, b], "hips", {});
    expect(anchors).toMatchObject({ by: "middle", missing: ["b"] });
    const first = placed(a);
    expect(placementOver(first, b, false, torso, anchors).scale * 1080).toBeCloseTo(first.placement.scale * 720, 9);
  });
  test("tapped places count when every clip has one", () => {
    const [a, b] = [hitter("a", 100, { x: 600, y: 400 }), hitter("b", 100, { x: 600, y: 400 })];
    const taps = { a: { x: 1, y: 2 }, b: { x: 3, y: 4 } };
    expect(anchorsOf([a, b], "tapped", taps)).toMatchObject({ by: "tapped", spots: taps });
    expect(anchorsOf([a, b], "tapped", { a: taps.a })).toMatchObject({ by: "middle", missing: ["b"] });
  });
});

describe("N14: a flipped picture", () => {
  const spot = fc.record({ x: fc.double({ min: 0, max: 1280, noNaN: true }), y: fc.double({ min: 0, max: 720, noNaN: true }) });
  const picture = { width: 1280, height: 720 };
  const look = fc.record({ zoom: fc.double({ min: 1, max: 8, noNaN: true }), centre: spot });
  test("every place of it, pixels, points and marks alike, lies as in a mirror, and none of it up or down", () => {
    fc.assert(
      fc.property(spot, look, (at, how) => {
        const plain = toScreen(placementOf(how, picture, box), at);
        const flipped = toScreen(placementOf(how, picture, box, true), at);
        expect(flipped.x).toBeCloseTo(box.width - plain.x, 6);
        expect(flipped.y).toBeCloseTo(plain.y, 6);
      }),
    );
  });
  test("a place tapped in it is the place of the picture as it was filmed", () => {
    fc.assert(
      fc.property(spot, look, fc.boolean(), (at, how, isFlipped) => {
        const place = placementOf(how, picture, box, isFlipped);
        const back = toPicture(place, toScreen(place, at));
        expect(back.x).toBeCloseTo(at.x, 6);
        expect(back.y).toBeCloseTo(at.y, 6);
      }),
    );
  });
});
