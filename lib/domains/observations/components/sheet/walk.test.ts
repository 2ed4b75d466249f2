import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { SheetRow } from "../../sheet/view";
import { frameAddress, sheetAddress, sheetAddressOf } from "./addresses";
import { cellKey, placeOfKey, stepCell } from "./walk";

const grid = { rows: 4, columns: 7 };
const keys = ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Home", "End"];
const rows = [{ kind: "this", swingId: "s1" }, { kind: "other", swingId: "s2" }, { kind: "own-best", swingId: "s3" }] as unknown as readonly SheetRow[];

describe("walking the grid", () => {
  test("never leaves it, and other keys do not walk", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...keys)), (pressed) => {
        const { row, column } = pressed.reduce((at, key) => stepCell(at, key, grid) ?? at, { row: 1, column: 3 });
        expect(row >= 0 && row < grid.rows && column >= 0 && column < grid.columns).toBe(true);
      }),
    );
    expect(stepCell({ row: 0, column: 0 }, "x", grid)).toBeNull();
  });

  test("inside the grid left undoes right and up undoes down", () => {
    const there = (at: { row: number; column: number }, ...way: string[]) => way.reduce((now, key) => stepCell(now, key, grid) ?? now, at);
    expect(there({ row: 1, column: 3 }, "ArrowRight", "ArrowLeft", "ArrowDown", "ArrowUp")).toEqual({ row: 1, column: 3 });
  });

  test("a cell is found again by its name, and a name of no cell finds none", () => {
    for (const [i, row] of rows.entries()) expect(placeOfKey(cellKey(row, 2), rows)).toEqual({ row: i, column: 2 });
    for (const name of [undefined, "", "this", "this.nowhere", "s9.plant"]) expect(placeOfKey(name, rows)).toBeNull();
  });
});

describe("addresses", () => {
  const swingId = "11111111-1111-4111-8111-111111111111";
  const state = { swingId, clipId: "c1", withIds: ["s2", "s3"], at: "this.plant", lines: "all", numbers: "on" };

  test("the way back from a frame is the sheet as it was left", () => {
    const address = new URL(frameAddress({ swingId: "s2", clipId: "c2", frameIndex: 77 }, state), "http://cage.test");
    expect(address.pathname).toBe("/swings/s2");
    expect([address.searchParams.get("clip"), address.searchParams.get("frame")]).toEqual(["c2", "77"]);
    expect(sheetAddressOf(address.searchParams.get("sheet") ?? "", address.searchParams.get("back") ?? "")).toBe(sheetAddress(state));
  });

  test("nobody is led away from the house by what stands in an address", () => {
    for (const [sheet, back] of [["//elsewhere.test", ""], ["../x", ""], ["", "a=1"]] as const) expect(sheetAddressOf(sheet, back)).toBeNull();
    expect(sheetAddressOf(swingId, "//elsewhere.test#x")).toMatch(new RegExp(`^/swings/${swingId}/sheet\\?`));
  });

  test("no swing beside this one is another wish than none said", () => {
    expect(sheetAddress({ swingId, withIds: [] })).toBe(`/swings/${swingId}/sheet?with=none`);
    expect(sheetAddress({ swingId })).toBe(`/swings/${swingId}/sheet`);
  });
});
