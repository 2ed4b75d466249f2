import fc from "fast-check";
import { expect, it } from "vitest";
import { horizontalSign, swingPositionOf } from "@/lib/measure/swing-coordinates";

it.each([
  ["side", "right", "pitcher on the right: right counts up", 1],
  ["side", "left", "pitcher on the left: left counts up", -1],
  ["rear", "right", "plate on the right", 1],
  ["rear", "left", "plate on the left", -1],
  ["front", "right", "plate on the left", -1],
  ["front", "left", "plate on the right", 1],
] as const)("%s view, %s-handed: %s", (view, side, _, sign) => {
  expect(horizontalSign({ view, side, mirrored: false })).toBe(sign);
  expect(horizontalSign({ view, side, mirrored: true })).toBe(-sign);
});

it("a mirrored picture of the same swing has the same coordinates, up to where it begins", () => {
  fc.assert(fc.property(fc.constantFrom("side", "rear", "front"), fc.constantFrom("left", "right"), fc.integer(), fc.integer(), fc.integer(), (view, side, x, y, width) => {
    const plain = swingPositionOf({ x, y }, { view, side, mirrored: false });
    const mirrored = swingPositionOf({ x: width - x, y }, { view, side, mirrored: true });
    const origin = swingPositionOf({ x: width, y: 0 }, { view, side, mirrored: true });
    expect(mirrored.h - origin.h === plain.h).toBe(true);
    expect(mirrored.v === plain.v).toBe(true);
  }));
});

it("up in the picture is up", () => {
  expect(swingPositionOf({ x: 0, y: 10 }, { view: "side", side: "right", mirrored: false }).v).toBe(-10);
});
