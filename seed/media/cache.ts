import { createHash } from "node:crypto";
import { mkdir, stat } from "node:fs/promises";
import path from "node:path";
import { renderSwing, type RenderOptions } from "./render";
import type { SwingSpec } from "./spec";
import { truthOf, type SwingTruth } from "./truth";

/** Grows with every change of motion or picture, so that older videos are drawn anew. */
export const RENDERER_VERSION = 3;

/** A swing's file name: a hash of the spec (its keys in order) and the renderer's version. */
export function swingFileName(spec: SwingSpec): string {
  const ordered = JSON.stringify(spec, (_, value: unknown) =>
    value !== null && typeof value === "object" && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );
  return `${createHash("sha256").update(`${RENDERER_VERSION} ${ordered}`).digest("hex").slice(0, 24)}.mp4`;
}

/** A rendered swing and its truth, drawn once per spec and kept in a folder. Two callers at once draw twice and the later one wins, whole. */
export async function cachedSwing(spec: SwingSpec, cacheDir: string, options: RenderOptions = {}): Promise<{ path: string; truth: SwingTruth; wasCached: boolean }> {
  await mkdir(cacheDir, { recursive: true });
  const file = path.join(cacheDir, swingFileName(spec));
  const isThere = await stat(file).then((found) => found.size > 0, () => false);
  if (isThere) return { path: file, truth: truthOf(spec), wasCached: true };
  const { truth } = await renderSwing(spec, file, options);
  return { path: file, truth, wasCached: false };
}
