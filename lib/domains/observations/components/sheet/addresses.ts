import { isId } from "@/lib/core/ids";

/** What of a sheet stands in its address: how one got back to a cell. */
export interface SheetState {
  readonly swingId: string;
  readonly clipId?: string;
  /** Other swings; left out means the one that is shown by itself. */
  readonly withIds?: readonly string[];
  /** A model that lies beside. */
  readonly modelId?: string;
  /** The cell in hand: "this.plant". */
  readonly at?: string;
  readonly lines?: string;
  readonly numbers?: string;
}

/** The address of a sheet. */
export function sheetAddress(state: SheetState): string {
  const query = sheetQuery(state);
  return `/swings/${state.swingId}/sheet${query ? `?${query}` : ""}`;
}

function sheetQuery({ clipId, withIds, modelId, at, lines, numbers }: SheetState): string {
  const given = { clip: clipId, with: withIds && (withIds.join(",") || "none"), model: modelId, at, lines, numbers };
  return new URLSearchParams(Object.entries(given).flatMap(([key, value]) => (value ? [[key, value]] : []))).toString();
}

/** The address of a cell's frame in the swing view, with the way back. */
export function frameAddress(cell: { readonly swingId: string; readonly clipId: string; readonly frameIndex: number | null }, from: SheetState): string {
  const back = sheetQuery(from);
  const given = { clip: cell.clipId, frame: cell.frameIndex === null ? "" : String(cell.frameIndex), sheet: from.swingId, back };
  return `/swings/${cell.swingId}?${new URLSearchParams(Object.entries(given).filter(([, value]) => value !== ""))}`;
}

/** The address of an instant of a model beside the swing of the sheet, with the way back: a model is worked on nowhere, and looked at there. */
export function besideAddress(cell: { readonly clipId: string; readonly seconds: number | null }, from: SheetState): string {
  const given = { clip: from.clipId, with: cell.clipId, at: cell.seconds === null ? undefined : cell.seconds.toFixed(4), sheet: from.swingId, back: sheetQuery(from) };
  return `/swings/${from.swingId}/beside?${new URLSearchParams(Object.entries(given).flatMap(([key, value]) => (value ? [[key, value]] : [])))}`;
}

/** Where somebody came from, as the swing view got it in its address; null for anything that is no sheet. */
export function sheetAddressOf(sheet: string | undefined, back: string | undefined): string | null {
  if (!sheet || !isId(sheet)) return null;
  const query = new URLSearchParams(back ?? "").toString();
  return `/swings/${sheet}/sheet${query ? `?${query}` : ""}`;
}
