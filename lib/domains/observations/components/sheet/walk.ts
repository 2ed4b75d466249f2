import { sheetEvents } from "@/lib/domains/clips/stills/view";
import type { SheetRow } from "../../sheet/view";

/** A cell of the grid, counted from its upper left corner. */
export interface CellPlace {
  readonly row: number;
  readonly column: number;
}

/** The cell to which a key leads; null for a key that does not walk, and at the edge the cell itself. */
export function stepCell({ row, column }: CellPlace, key: string, grid: { readonly rows: number; readonly columns: number }): CellPlace | null {
  const inside = (place: number, count: number) => Math.max(0, Math.min(count - 1, place));
  if (key === "ArrowLeft") return { row, column: inside(column - 1, grid.columns) };
  if (key === "ArrowRight") return { row, column: inside(column + 1, grid.columns) };
  if (key === "ArrowUp") return { row: inside(row - 1, grid.rows), column };
  if (key === "ArrowDown") return { row: inside(row + 1, grid.rows), column };
  if (key === "Home") return { row, column: 0 };
  if (key === "End") return { row, column: grid.columns - 1 };
  return null;
}

/** A row by a name that holds while others come and go: "this", "own-best", "model", or its swing. */
export function rowKey({ kind, swingId }: Pick<SheetRow, "kind" | "swingId">): string {
  return kind === "other" ? swingId : kind;
}

/** "this.plant" */
export function cellKey(row: SheetRow, column: number): string {
  return `${rowKey(row)}.${sheetEvents[column] ?? sheetEvents[0]}`;
}

/** The cell of a name; null when the sheet has none of it. */
export function placeOfKey(key: string | undefined, rows: readonly SheetRow[]): CellPlace | null {
  const [name, event] = (key ?? "").split(".");
  const row = rows.findIndex((it) => rowKey(it) === name);
  const column = sheetEvents.findIndex((it) => it === event);
  return row < 0 || column < 0 ? null : { row, column };
}

/** Where a sheet begins: at the instant of which most is to talk about in this swing, the earlier of two alike; without any at contact. */
export function firstPlace(rows: readonly SheetRow[]): CellPlace {
  const loud = (rows[0]?.cells ?? []).map(({ readings }) => readings.filter(({ reading }) => reading.verdict === "talk-about" && !reading.isGrey).length);
  const most = Math.max(0, ...loud);
  return { row: 0, column: most > 0 ? loud.indexOf(most) : sheetEvents.indexOf("contact") };
}
