import { expect, test } from "vitest";
import { refuseOtherFrames } from "./stepping-copy";

const times = { timeBaseNum: 1, timeBaseDen: 90_000, ticks: [900, 1275, 1650, 2400] };
const at = (...microseconds: readonly number[]) => microseconds.map((it) => ({ microseconds: it }));

test("a copy whose frames stand where the clip's do is taken, wherever its own clock starts", () => {
  expect(() => refuseOtherFrames(at(0, 4167, 8333, 16667), times)).not.toThrow();
  expect(() => refuseOtherFrames(at(50_000, 54_167, 58_333, 66_667), times)).not.toThrow();
});
test("a copy with a frame more or less is refused, and the sentence gives both counts", () => {
  expect(() => refuseOtherFrames(at(0, 4167, 8333), times)).toThrow(/has 3 frames and the clip 4/);
});
test("a copy made at an even rate from uneven times is refused at its first frame that stands elsewhere", () => {
  expect(() => refuseOtherFrames(at(0, 4167, 8333, 12_500), times)).toThrow(/^Frame 4 /);
});
