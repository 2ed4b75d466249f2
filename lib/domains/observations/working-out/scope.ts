import { contentHash } from "@/lib/core/canonical-json";
import type { Id } from "@/lib/core/ids";
import type { Side } from "@/lib/domains/roster/rules";
import type { Database } from "@/lib/platform/database";
import type { Steadiness } from "@/lib/reason/steady";
import { ENGINE_VERSION } from "@/lib/reason/version";
import type { RunInput, RunOutput, WideInsight } from "./rules";

/** What decides a run: whose it is, the library and the engine, and the input's hash. */
export async function workKey(of: { readonly academyId: Id; readonly playerId: Id; readonly side: Side }, editionId: Id, input: RunInput) {
  return { ...of, editionId, engineVersion: ENGINE_VERSION, inputHash: await contentHash(input) };
}

export type WorkKey = Awaited<ReturnType<typeof workKey>>;

/** What the worker made of an input; null when nobody has asked for it. */
export interface FoundWork {
  readonly id: Id;
  readonly isDone: boolean;
  /** Kept only where the order was too wide to work out at once. */
  readonly output: RunOutput | null;
  /** Kept only where the order is exact and a page does not wait for its reasons. */
  readonly insight: WideInsight | null;
  readonly steadiness: Steadiness | null;
}

export async function findWork(db: Database, key: WorkKey): Promise<FoundWork | null> {
  const row = await db.rankingWork.findUnique({ where: { academyId_playerId_side_editionId_engineVersion_inputHash: key }, select: { id: true, doneAt: true, output: true, insight: true, steadiness: true } });
  // All are written by the worker in these very forms, under the engine's version in the key.
  return row && { id: row.id, isDone: row.doneAt !== null, output: row.output as RunOutput | null, insight: row.insight as WideInsight | null, steadiness: row.steadiness as Steadiness | null };
}

/** Work by its id; null when it is gone. */
export async function readWork(db: Database, workId: Id) {
  return db.rankingWork.findUnique({ where: { id: workId }, select: { id: true, academyId: true, editionId: true, engineVersion: true, input: true, doneAt: true } });
}
