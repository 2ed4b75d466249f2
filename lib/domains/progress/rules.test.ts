import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { RepeatedReading } from "@/lib/measure/several/repeated-reading";
import { oldAndNew, plotOf, trendOf, type ShownClip } from "./rules";

const clip = (clipId: string, day: string, more: Partial<ShownClip> = {}): ShownClip => ({ clipId, swingId: clipId, view: "side", day, frames: { plant: 5, contact: 9 }, ...more });
const reading = (day: string, value: number, more: Partial<RepeatedReading> = {}): RepeatedReading => ({
  swingId: `${day} ${value}`, day, value, sd: 0.5, sdCamera: 0, setUp: "one", isCameraKnown: true, verdict: "fine", deviation: null, isGrey: false, ...more,
});
const band = { ok: [null, 20], act: [null, 28] } as never;

describe("the own old and new swing", () => {
  test("are the oldest and the newest of one view, of the view whose two lie furthest apart, at what both have", () => {
    const found = oldAndNew([clip("c", "2026-11-20"), clip("a", "2026-10-01", { frames: { contact: 7 } }), clip("b", "2026-10-09"), clip("r1", "2026-11-01", { view: "rear" }), clip("r2", "2026-11-21", { view: "rear" })]);
    expect([found?.old.clipId, found?.now.clipId, found?.events]).toEqual(["a", "c", ["contact"]]);
  });

  test("are not there of one day, of two views, or without an instant in common", () => {
    expect(oldAndNew([clip("a", "2026-11-20"), clip("b", "2026-11-20")])).toBeNull();
    expect(oldAndNew([clip("a", "2026-10-20"), clip("b", "2026-11-20", { view: "rear" })])).toBeNull();
    expect(oldAndNew([clip("a", "2026-10-20", { frames: { plant: 3 } }), clip("b", "2026-11-20", { frames: { contact: 3 } })])).toBeNull();
  });
});

describe("the trend", () => {
  const before = ["2026-10-01", "2026-10-01", "2026-10-01"].map((day, i) => reading(day, 30 + i));
  const after = (value: number) => [0, 1, 2].map((i) => reading("2026-11-20", value + i));
  const of = (value: number) => trendOf([...after(value), ...before], "degrees", band);

  test("is changed beyond the usual spread, not yet within it, and otherwise says why it cannot be told", () => {
    expect(of(10)).toMatchObject({ word: "changed", direction: "toward", because: null });
    expect(of(50)).toMatchObject({ word: "changed", direction: "away" });
    expect(trendOf([...after(30), ...before], "degrees", { ok: [10, 40], act: [0, 50] } as never)).toMatchObject({ word: "not-yet" });
    expect(trendOf(before.slice(0, 2), "degrees", band)).toMatchObject({ word: "cannot-tell", because: expect.stringContaining("it takes 3") });
  });

  test("shows a dot for each swing that speaks, the oldest first, and none for what is grey", () => {
    expect(trendOf([reading("2026-11-20", 9), reading("2026-11-19", 8, { isGrey: true }), reading("2026-10-01", 7)], "degrees", band).dots.map(({ value }) => value)).toEqual([7, 9]);
  });
});

describe("the plot", () => {
  const dots = fc.array(fc.record({ day: fc.integer({ min: 0, max: 60 }).map((n) => new Date(1_790_000_000_000 + n * 86_400_000).toISOString().slice(0, 10)), value: fc.double({ min: -90, max: 90, noNaN: true }), sd: fc.double({ min: 0, max: 20, noNaN: true }) }), { minLength: 1, maxLength: 12 });
  test("holds every dot with its doubt, larger values higher, later days further right", () => {
    fc.assert(
      fc.property(dots, (given) => {
        const sorted = [...given].sort((a, b) => a.day.localeCompare(b.day));
        const plot = plotOf({ dots: sorted, ok: [null, 20] })!;
        for (const { up, y, down } of plot.dots) {
          expect(up).toBeGreaterThanOrEqual(0);
          expect(down).toBeLessThanOrEqual(plot.height);
          expect(up).toBeLessThanOrEqual(y + 1e-9);
        }
        for (const a of plot.dots) for (const b of plot.dots) if (a.value > b.value) expect(a.y).toBeLessThanOrEqual(b.y);
        const days = [...new Set(sorted.map(({ day }) => day))];
        const middle = (day: string) => plot.dots.filter((it) => it.day === day).reduce((sum, it, _, all) => sum + it.x / all.length, 0);
        expect(days.map(middle)).toEqual([...days.map(middle)].sort((a, b) => a - b));
      }),
    );
  });

  test("is not there without a dot", () => {
    expect(plotOf({ dots: [], ok: null })).toBeNull();
  });
});
