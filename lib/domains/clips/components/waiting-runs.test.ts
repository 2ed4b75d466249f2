import { describe, expect, test } from "vitest";
import { waitingRuns } from "./waiting-runs";

describe("points wanted frame by frame", () => {
  const run = { point: "kn_f", from: "plant", to: "contact", frames: [10, 11, 12, 13, 14], readings: 2 } as const;
  const on = (...frames: number[]) => frames.map((frameIndex) => ({ frameIndex, point: "kn_f" as const, x: 1, y: 1, source: "coach" as const }));
  test("a run names how many frames are open, and the open one nearest to the frame shown", () => {
    expect(waitingRuns([run], on(10, 11), [], 11)).toMatchObject([{ open: 3, nextFrame: 12 }]);
    expect(waitingRuns([run], on(10, 11), [], 14)).toMatchObject([{ nextFrame: 14 }]);
  });
  test("a run waits until four fifths of its frames are placed, and no longer once that cannot be had", () => {
    expect(waitingRuns([run], on(10, 11, 12, 13), [], 0)).toEqual([]);
    expect(waitingRuns([run], on(10), [{ frameIndex: 12, point: "kn_f" }, { frameIndex: 13, point: "kn_f" }], 0)).toEqual([]);
  });
  test("suggested points do not count as placed, and the run with the least work comes first", () => {
    const short = { ...run, point: "an_f", frames: [10] } as const;
    const guess = on(10, 11, 12, 13).map((it) => ({ ...it, source: "suggested" as const }));
    expect(waitingRuns([run, short], guess, [], 0).map(({ point, open }) => [point, open])).toEqual([["an_f", 1], ["kn_f", 5]]);
  });
});
