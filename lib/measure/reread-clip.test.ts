import fc from "fast-check";
import { expect, it } from "vitest";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { POINT_IDS } from "@/lib/measure/points";
import { readClip } from "@/lib/measure/read-clip";
import { openReader } from "@/lib/measure/reread-clip";
import { filmedWhole } from "@/lib/measure/whole-swing.fixture";
import library from "@/seed/library/checkpoints.json";

const definitions = library.checkpoints as unknown as readonly CheckpointDefinition[];
const VIEWS = ["side", "front"] as const;
const clips = { side: filmedWhole("side", { fps: 120 }), front: filmedWhole("front", { fps: 120 }) };
const own = (view: (typeof VIEWS)[number]) => definitions.filter(({ views }) => views.measured.includes(view));

it("after a point was moved or taken away the readings are those of the changed clip read whole", () => {
  const move = fc.record({
    view: fc.constantFrom(...VIEWS), point: fc.constantFrom(...POINT_IDS), frame: fc.integer({ min: 0, max: 240 }),
    place: fc.option(fc.record({ x: fc.integer({ min: 200, max: 1200 }), y: fc.integer({ min: 100, max: 700 }), source: fc.constantFrom("placed" as const, "suggested" as const) })),
  });
  const readers = { side: openReader(own("side"), clips.side.clip, clips.side.swing), front: openReader(own("front"), clips.front.clip, clips.front.swing) };
  fc.assert(fc.property(move, ({ view, point, frame, place }) => {
    const { clip, swing } = clips[view];
    const { [point]: _, ...others } = clip.points[frame] ?? {};
    const changed = { ...clip, points: { ...clip.points, [frame]: place ? { ...others, [point]: place } : others } };
    expect(readers[view].moved(point, frame, place).readings).toEqual(readClip(own(view), changed, swing));
  }), { numRuns: 60 });
}, 60_000);

it("the same where points are placed here and there only and the rest is worked out between them", () => {
  const thinned = (view: (typeof VIEWS)[number], isKept: (frame: number, point: string) => boolean) => {
    const { clip, swing } = clips[view];
    const points = Object.fromEntries(Object.entries(clip.points).map(([frame, own]) => [frame, Object.fromEntries(Object.entries(own).filter(([point]) => isKept(Number(frame), point)))]));
    return { clip: { ...clip, points }, swing };
  };
  const move = fc.record({
    view: fc.constantFrom(...VIEWS), point: fc.constantFrom(...POINT_IDS), frame: fc.integer({ min: 100, max: 200 }),
    place: fc.option(fc.record({ x: fc.integer({ min: 500, max: 700 }), y: fc.integer({ min: 300, max: 500 }), source: fc.constantFrom("placed" as const, "suggested" as const) }), { freq: 3 }),
  });
  const every = (view: (typeof VIEWS)[number]) => [thinned(view, (frame) => frame % 3 === 0), thinned(view, (frame, point) => (frame * 7 + point.length * 3) % 5 !== 0)];
  const opened = VIEWS.flatMap((view) => every(view).map((one) => ({ view, ...one, reader: openReader(own(view), one.clip, one.swing) })));
  expect(opened.every(({ reader }) => reader.readings.filter(({ value }) => value !== null).length > 10)).toBe(true);
  fc.assert(fc.property(move, fc.boolean(), ({ view, point, frame, place }, isThird) => {
    const { clip, swing, reader } = opened.filter((one) => one.view === view)[isThird ? 0 : 1]!;
    const { [point]: _, ...others } = (clip.points as typeof clips.side.clip.points)[frame] ?? {};
    const changed = { ...clip, points: { ...clip.points, [frame]: place ? { ...others, [point]: place } : others } };
    expect(reader.moved(point, frame, place).readings).toEqual(readClip(own(view), changed, swing));
  }), { numRuns: 60 });
}, 90_000);

it("the same where the bat was followed through the pictures from every tenth frame", () => {
  const { clip, swing } = clips.side;
  const points: typeof clip.points = Object.fromEntries(Object.entries(clip.points).map(([frame, own]) => {
    const followed = (point: "knob" | "tip") => (own[point] && Number(frame) % 10 !== 0 && Number(frame) > 90 ? { [point]: { ...own[point], followedSdPx: 0.8 } } : {});
    return [frame, { ...own, ...followed("knob"), ...followed("tip") }];
  }));
  const marked = { ...clip, points };
  const definitionsOfBat = own("side").filter(({ id }) => ["bat-angle-early", "barrel-climb-angle", "barrel-path-length", "hand-path-directness", "barrel-below-hands", "launch-to-contact-time"].includes(id));
  const reader = openReader(definitionsOfBat, marked, swing);
  const whole = readClip(definitionsOfBat, clip, swing);
  // Twelve places that lean on two are less than twelve.
  expect(reader.readings.filter(({ sd }, i) => (sd ?? 0) > (whole[i]?.sd ?? Infinity)).map(({ checkpointId }) => checkpointId)).toContain("barrel-path-length");
  const move = fc.record({
    point: fc.constantFrom("knob" as const, "tip" as const, "wr_f" as const), frame: fc.integer({ min: 100, max: 200 }),
    place: fc.option(fc.record({ x: fc.integer({ min: 500, max: 700 }), y: fc.integer({ min: 300, max: 500 }), source: fc.constant("placed" as const) }), { freq: 3 }),
  });
  fc.assert(fc.property(move, ({ point, frame, place }) => {
    const { [point]: _, ...others } = points[frame] ?? {};
    const changed = { ...marked, points: { ...points, [frame]: place ? { ...others, [point]: place } : others } };
    expect(reader.moved(point, frame, place).readings).toEqual(readClip(definitionsOfBat, changed, swing));
  }), { numRuns: 25 });
}, 90_000);

it("a drag that is given up leaves the reader as it was", () => {
  const { clip, swing } = clips.side;
  const reader = openReader(own("side"), clip, swing);
  reader.moved("wr_f", 100, { x: 10, y: 10, source: "placed" });
  expect(reader.readings).toEqual(readClip(own("side"), clip, swing));
});
