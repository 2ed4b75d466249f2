import type { Granted } from "@/lib/access/ability";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import type { SwingSubject } from "../policy";

/** Writes down which stills of a clip lie there, in the place of what was known before. */
export async function keepStills(tx: Transaction, swing: Granted<SwingSubject, "swing.cut-stills">, clipId: string, window: string, frames: readonly number[]): Promise<void> {
  const { academyId } = swing;
  const said = { window, frames: [...frames], cutAt: now() };
  await tx.clipStills.upsert({ where: { academyId_clipId: { academyId, clipId } }, create: { academyId, clipId, ...said }, update: said });
}
