import type { Granted } from "@/lib/access/ability";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import type { SwingSubject } from "../policy";

/** Stills of one window of a clip, by their frames. */
export interface StillsOf {
  readonly window: string;
  readonly frames: readonly number[];
}

/**
 * Writes down which stills of a clip lie there, in the place of what was known before.
 * @returns those that were known and that no clip of the file needs any more, for whoever removes their bytes
 */
export async function keepStills(tx: Transaction, swing: Granted<SwingSubject, "swing.cut-stills">, clipId: string, stills: StillsOf): Promise<StillsOf | null> {
  const { academyId } = swing;
  const where = { academyId_clipId: { academyId, clipId } };
  const before = await tx.clipStills.findUnique({ where, select: { window: true, frames: true } });
  const said = { window: stills.window, frames: [...stills.frames], cutAt: now() };
  await tx.clipStills.upsert({ where, create: { academyId, clipId, ...said }, update: said });
  if (!before) return null;
  // Two players may have one stretch of a file: their stills lie in one place. What another stretch needs is spared as well.
  const { fileId } = await tx.clip.findUniqueOrThrow({ where: { id: clipId }, select: { fileId: true } });
  const needed = await tx.clipStills.findMany({ where: { academyId, window: before.window, clip: { fileId } }, select: { frames: true } });
  const inUse = new Set(needed.flatMap(({ frames }) => frames));
  return { window: before.window, frames: before.frames.filter((frame) => !inUse.has(frame)) };
}
