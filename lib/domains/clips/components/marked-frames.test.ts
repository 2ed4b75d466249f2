import { describe, expect, test } from "vitest";
import type { ClipView, MarkView } from "../view";
import { nameOfMark, sayMarks } from "./mark-names";
import { markedFrames } from "./marked-frames";

const line = { v: 1, kind: "line", x1: 0, y1: 0, x2: 9, y2: 9 } as const;
const corner = { v: 1, kind: "angle", x1: 0, y1: 0, x2: 10, y2: 0, x3: 10, y3: 10 } as const;
const words = { v: 1, kind: "words", x: 1, y: 1, text: "hands first" } as const;
const mark = (frameIndex: number, shape: MarkView["shape"]): MarkView => ({ id: `${frameIndex}${shape.kind}${Math.random()}`, frameIndex, shape });
const clip = { frameTimes: { timeBaseNum: 1, timeBaseDen: 240, ticks: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9] }, realSecondsPerFileSecond: 0.5 } as unknown as ClipView;
const contact = { event: "contact", frameIndex: 5, tick: 5, source: "coach", sdSeconds: null } as const;

describe("marks on other frames", () => {
  const marks = [mark(9, line), mark(2, line), mark(5, words), mark(2, corner), mark(2, line), mark(2, words)];
  test("stand in the order of time, once a frame, at real seconds from contact, and the frame shown is not among them", () => {
    const frames = markedFrames(clip, [contact], marks, 5);
    expect(frames.map((it) => it.frameIndex)).toEqual([2, 9]);
    expect(frames[0]?.clockSeconds).toBeCloseTo(-3 / 480, 9);
    expect(frames[0]?.marks).toHaveLength(4);
  });
  test("are said with their number and their words", () => {
    expect(sayMarks(marks.filter((it) => it.frameIndex === 2))).toBe("2 lines, angle, “hands first”");
    expect(nameOfMark(corner, 1)).toBe("Angle 2, 90 degrees");
  });
});
