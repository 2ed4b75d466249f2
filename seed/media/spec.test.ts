import { describe, expect, test } from "vitest";
import { readArguments } from "./cli";
import { swingSpec } from "./spec";
import { swingFileName } from "./cache";

describe("a spec", () => {
  test("refuses what cannot be drawn and names it", () => {
    expect(() => swingSpec({ faults: { "lunge-forward": 1.2 } })).toThrow("lunge-forward must be 0 to 1");
    expect(() => swingSpec({ widthPx: 641 })).toThrow("even");
    expect(() => swingSpec({ seconds: 1 })).toThrow("seconds");
    expect(() => swingSpec({ faults: { "no-such-fault": 1 } as never })).toThrow("fault must be one of");
  });

  test("is what the command line says", () => {
    const { out, spec } = readArguments(["a.mp4", "--side", "left", "--fault", "casting=0.5", "--size", "640x360", "--scene", "cage"]);
    expect(out).toBe("a.mp4");
    expect(spec).toEqual(swingSpec({ side: "left", faults: { casting: 0.5 }, widthPx: 640, heightPx: 360, look: { scene: "cage" } }));
    expect(() => readArguments(["a.mp4", "--colour", "red"])).toThrow("--colour");
  });

  test("has one file name, however its keys are ordered, and another for every difference", () => {
    const a = swingSpec({ side: "left", faults: { casting: 0.5, "lean-back": 1 } });
    const b = swingSpec({ faults: { "lean-back": 1, casting: 0.5 }, side: "left" });
    expect(swingFileName(a)).toBe(swingFileName(b));
    expect(swingFileName(a)).not.toBe(swingFileName({ ...a, seed: 2 }));
  });
});
