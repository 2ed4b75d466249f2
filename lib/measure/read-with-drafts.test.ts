import { expect, test, vi } from "vitest";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { ClipInput, FramePoints } from "@/lib/measure/clip-input";
import { readClip } from "@/lib/measure/read-clip";
import { openReaderWithDrafts, readWithDrafts } from "@/lib/measure/read-with-drafts";
import { filmedWhole } from "@/lib/measure/whole-swing.fixture";
import library from "@/seed/library/checkpoints.json";

// Whole swings are read several times, which takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const side = (library.checkpoints as unknown as readonly CheckpointDefinition[]).filter(({ views }) => views.measured.includes("side"));
const { clip, swing } = filmedWhole("side", { fps: 120 });

/** The same clip with a place kept, made a draft or left out. */
const drafted = (fate: (frame: number, point: string) => "placed" | "suggested" | null): ClipInput => ({
  ...clip,
  points: Object.fromEntries(Object.entries(clip.points).map(([frame, places]) => [
    frame,
    Object.fromEntries(Object.entries(places).flatMap(([point, place]) => {
      const source = fate(Number(frame), point);
      return source ? [[point, { ...place, source, x: place.x + (source === "suggested" ? 7 : 0) }]] : [];
    })) as FramePoints,
  ])),
});

test("without drafts the readings are those of the clip", () => {
  expect(readWithDrafts(side, clip, swing)).toEqual(readClip(side, clip, swing));
});

test("a draft beside placed points neither moves a reading nor makes it grey", () => {
  // Every second frame is a person's, those between are drafts 7 pixels off.
  const placed = readClip(side, drafted((frame) => (frame % 2 === 0 ? "placed" : null)), swing);
  const mixed = drafted((frame) => (frame % 2 === 0 ? "placed" : "suggested"));
  const readings = readWithDrafts(side, mixed, swing);
  const given = placed.filter(({ value }) => value !== null);
  expect(given.length).toBeGreaterThan(10);
  for (const reading of given) expect(readings.find(({ checkpointId }) => checkpointId === reading.checkpointId)).toEqual(reading);
  // Read as one heap they would be grey.
  expect(readClip(side, mixed, swing).filter(({ reasons }) => reasons.some(({ id }) => id === "points-unconfirmed")).length).toBeGreaterThan(10);
});

test("what placed points leave without a value is read from the drafts, and is grey for that reason", () => {
  const mixed = drafted((_, point) => (/^(kn|an)_/.test(point) ? "suggested" : "placed"));
  const readings = readWithDrafts(side, mixed, swing);
  const drafts = readings.filter(({ reasons }) => reasons.some(({ id }) => id === "points-unconfirmed"));
  expect(drafts.map(({ checkpointId }) => checkpointId)).toContain("front-knee-firming");
  expect(drafts.every(({ isGrey, verdict, value }) => isGrey && verdict === null && value !== null)).toBe(true);
  expect(readings.find(({ checkpointId }) => checkpointId === "trunk-lean-at-contact")?.isGrey).toBe(readClip(side, clip, swing).find(({ checkpointId }) => checkpointId === "trunk-lean-at-contact")?.isGrey);
});

test("while a point is dragged, and once it is placed, it counts as a person's", () => {
  const mixed = drafted((frame, point) => (point === "kn_f" && frame % 2 === 1 ? "suggested" : "placed"));
  const place = { x: 640, y: 400, source: "placed" } as const;
  const moved = openReaderWithDrafts(side, mixed, swing).moved("kn_f", 101, place);
  const changed: ClipInput = { ...mixed, points: { ...mixed.points, 101: { ...mixed.points[101], kn_f: place } } };
  expect(moved.readings).toEqual(readWithDrafts(side, changed, swing));
});
