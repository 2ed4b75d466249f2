import type { Granted } from "@/lib/access/ability";
import { newId, type Id } from "@/lib/core/ids";
import { now } from "@/lib/platform/clock";
import { Prisma, type Database, type Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import type { Steadiness } from "@/lib/reason/steady";
import type { WorkSubject } from "../policy";
import { workAsked } from "./events";
import type { RunInput, RunOutput, WideInsight } from "./rules";
import { findWork, type WorkKey } from "./scope";

const json = (value: object) => value as Prisma.InputJsonObject;

/** Asks the worker for an input once. Of one side only the newest input waits: what nobody looks at any more is not worked out. */
export async function askForWork(tx: Transaction, key: WorkKey, input: RunInput, askedById: Id): Promise<void> {
  const found = await findWork(tx, key);
  if (found?.isDone) return;
  const id = found?.id ?? newId();
  if (!found) await tx.rankingWork.createMany({ data: [{ ...key, id, input: json(input), askedById, askedAt: now() }], skipDuplicates: true });
  const work = await findWork(tx, key);
  await tell(tx, workAsked, { workId: work?.id ?? id }, { key: `order of ${key.playerId} ${key.side}` });
}

type Worked = Granted<WorkSubject, "reasoning.work-out">;

/** Keeps an order that was too wide to work out at once. */
export async function keepOrder(db: Database, granted: Worked, output: RunOutput): Promise<void> {
  await db.rankingWork.updateMany({ where: { id: granted.id, academyId: granted.academyId }, data: { output: json(output) } });
}

/** Keeps the reasons and questions of an order that a page does not wait for. */
export async function keepInsight(db: Database, granted: Worked, insight: WideInsight): Promise<void> {
  await db.rankingWork.updateMany({ where: { id: granted.id, academyId: granted.academyId }, data: { insight: json(insight) } });
}

/** Keeps whether it is steady; with that the work is done. */
export async function keepSteadiness(db: Database, granted: Worked, steadiness: Steadiness | null): Promise<void> {
  await db.rankingWork.updateMany({ where: { id: granted.id, academyId: granted.academyId }, data: { steadiness: steadiness ? json(steadiness) : Prisma.DbNull, doneAt: now() } });
}
