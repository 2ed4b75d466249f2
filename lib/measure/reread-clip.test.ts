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

it("a drag that is given up leaves the reader as it was", () => {
  const { clip, swing } = clips.side;
  const reader = openReader(own("side"), clip, swing);
  reader.moved("wr_f", 100, { x: 10, y: 10, source: "placed" });
  expect(reader.readings).toEqual(readClip(own("side"), clip, swing));
});
