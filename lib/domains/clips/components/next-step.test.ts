import { describe, expect, test } from "vitest";
import type { EventView } from "../view";
import { nextStep } from "./next-step";

const clip = (frames: number, timeBasis: "container" | "unknown" = "container") =>
  ({ frameTimes: { ticks: Array.from({ length: frames }, (_, i) => i), timeBaseNum: 1, timeBaseDen: 240 }, realSecondsPerFileSecond: 1, timeBasis }) as unknown as Parameters<typeof nextStep>[0];
const at = (event: EventView["event"], frameIndex: number, source: EventView["source"] = "coach"): EventView => ({ event, frameIndex, tick: frameIndex, source, sdSeconds: null });

describe("what to do next on a clip", () => {
  test("a clip whose filming speed nobody knows asks for it before anything else", () => {
    expect(nextStep(clip(300, "unknown"), [])).toContain("How it was filmed");
  });
  test("without contact it asks for contact, and a contact that was only heard is to be confirmed", () => {
    expect(nextStep(clip(300), [])).toContain("press C");
    expect(nextStep(clip(300), [at("contact", 200, "suggested")])).toContain("only suggested");
  });
  test("with contact alone it asks for the other events", () => {
    expect(nextStep(clip(300), [at("contact", 200)])).toContain("plant and launch");
  });
  test("a clip that begins late or ends early says by how much, before and after its events are set", () => {
    expect(nextStep(clip(300), [at("contact", 48)])).toContain("begins 0.20 s before contact: set the events");
    expect(nextStep(clip(300), [at("contact", 287), at("plant", 250)])).toContain("ends 0.05 s after contact: what lies outside");
  });
  test("nothing stands in the way of a clip that shows the whole swing with its events set", () => {
    expect(nextStep(clip(300), [at("contact", 200), at("plant", 160)])).toBeNull();
  });
  test("one frame is no swing, and is not timed", () => {
    expect(nextStep(clip(1), [at("contact", 0)])).toContain("one frame");
  });
});
