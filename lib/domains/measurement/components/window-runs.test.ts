import { describe, expect, test } from "vitest";
import type { ClipView, EventView } from "@/lib/domains/clips/view";
import type { CheckpointToRead } from "../view";
import { windowRuns } from "./window-runs";

const clip = { view: "side", timeBasis: "measured", realSecondsPerFileSecond: 1, frameTimes: { timeBaseNum: 1, timeBaseDen: 100, ticks: Array.from({ length: 101 }, (_, i) => i) } } as unknown as ClipView;
const at = (event: EventView["event"], frameIndex: number): EventView => ({ event, frameIndex, tick: frameIndex, source: "coach", sdSeconds: null });
const checkpoint = (id: string, view: "side" | "rear" = "side") => ({ id, name: id, area: "a", phase: "p", definition: { formulaId: id, formulaVersion: 1, scope: "clip", events: [], views: { measured: [view] } } }) as unknown as CheckpointToRead;

describe("points that are wanted frame by frame", () => {
  test("a reading over a stretch wants its points on each frame from its first to its last event", () => {
    const runs = windowRuns([checkpoint("front-knee-behind-foot")], clip, [at("plant", 40), at("contact", 60)]);
    expect(runs.map(({ point }) => point).sort()).toEqual(["an_f", "kn_f"]);
    expect(runs[0]).toMatchObject({ from: "plant", to: "contact", readings: 1 });
    expect(runs[0]?.frames).toEqual(Array.from({ length: 21 }, (_, i) => 40 + i));
  });
  test("nothing is wanted for another view, without contact, or while an event of the stretch is missing", () => {
    expect(windowRuns([checkpoint("front-knee-behind-foot", "rear")], clip, [at("plant", 40), at("contact", 60)])).toEqual([]);
    expect(windowRuns([checkpoint("front-knee-behind-foot")], clip, [at("plant", 40)])).toEqual([]);
    expect(windowRuns([checkpoint("front-knee-behind-foot")], clip, [at("contact", 60)])).toEqual([]);
  });
  test("a reading at instants wants none", () => {
    expect(windowRuns([checkpoint("front-side-stack")], clip, [at("plant", 40), at("contact", 60)])).toEqual([]);
  });
});
