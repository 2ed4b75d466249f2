import type { MarkShape, MarkView } from "../view";
import { markAngleDeg } from "./mark-strokes";

const shapeNames = { line: "Line", angle: "Angle", pen: "Pen", ring: "Ring" } as const;

/** A mark in words, by its place in the list of its frame: "Angle 2, 91 degrees". */
export function nameOfMark(shape: MarkShape, index: number): string {
  if (shape.kind === "words") return `Words, “${shape.text}”`;
  const name = `${shapeNames[shape.kind]} ${index + 1}`;
  return shape.kind === "angle" ? `${name}, ${Math.round(markAngleDeg(shape))} degrees` : name;
}

/** The marks of a frame in few words: "2 lines, ring, “hands first”". */
export function sayMarks(marks: readonly MarkView[]): string {
  const counts = new Map<keyof typeof shapeNames, number>();
  for (const { shape } of marks) if (shape.kind !== "words") counts.set(shape.kind, (counts.get(shape.kind) ?? 0) + 1);
  const drawn = [...counts].map(([kind, count]) => (count === 1 ? shapeNames[kind] : `${count} ${shapeNames[kind]}s`).toLowerCase());
  return [...drawn, ...marks.flatMap(({ shape }) => (shape.kind === "words" ? [`“${shape.text}”`] : []))].join(", ");
}
