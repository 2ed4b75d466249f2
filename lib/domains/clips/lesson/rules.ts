import type { KeyPress } from "../rules";

/** Keys of the tiles in their order: the digits as they stand on a keyboard, then its letters, save Z, which takes back. */
export const tileKeys = [..."1234567890qwertyuiopasdfghjklxcvbnm"] as const;

export type BoardCommand = { readonly kind: "give"; readonly tile: number } | { readonly kind: "step"; readonly by: -1 | 1 } | { readonly kind: "undo" };

/** What a key asks of the board; null when it is not ours. Keys of the browser are left alone, save undo. */
export function boardCommandOf(press: KeyPress, tileCount: number): BoardCommand | null {
  const key = press.key.toLowerCase();
  if ((press.ctrlKey || press.metaKey) && !press.altKey && key === "z") return { kind: "undo" };
  if (press.ctrlKey || press.metaKey || press.altKey) return null;
  if (key === "backspace" || key === "z") return { kind: "undo" };
  if (key === "arrowleft") return { kind: "step", by: -1 };
  if (key === "arrowright") return { kind: "step", by: 1 };
  const tile = tileKeys.findIndex((it) => it === key);
  return tile >= 0 && tile < tileCount ? { kind: "give", tile } : null;
}

/** A film on the board. */
export interface BoardFilm {
  readonly key: number;
  /** Somebody said whose it is. */
  readonly isGiven: boolean;
}

/** The film that is asked about next: the first one after this that nobody has said of, from the front again at the end; null when all are given. */
export function nextFilm(films: readonly BoardFilm[], from: number | null): number | null {
  const at = films.findIndex(({ key }) => key === from);
  const around = [...films.slice(at + 1), ...films.slice(0, at + 1)];
  return around.find(({ isGiven }) => !isGiven)?.key ?? null;
}

/** The film beside the one in hand; the ends hold. */
export function stepFilm(films: readonly BoardFilm[], from: number | null, by: -1 | 1): number | null {
  const at = films.findIndex(({ key }) => key === from);
  if (at < 0) return (by > 0 ? films[0] : films.at(-1))?.key ?? null;
  return films[Math.max(0, Math.min(films.length - 1, at + by))]?.key ?? null;
}
