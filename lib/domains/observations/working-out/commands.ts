import type { Granted } from "@/lib/access/ability";
import { newId, type Id } from "@/lib/core/ids";
import { now } from "@/lib/platform/clock";
import { Prisma, type Database, type Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import type { Steadiness } from "@/lib/reason/steady";
import type { WorkSubject } from "../policy";
import { workAsked } from "./events";
import type { RunInput, RunOutput } from "./rules";
import { findWork, type WorkKey } from "./scope";

const json = (value: object) => value as Prisma.InputJsonObject;

/** Asks the worker for an input once; asking again finds what is there. */
export async function askForWork(tx: Transaction, key: WorkKey, input: RunInput, askedById: Id): Promise<void> {
  if (await findWork(tx, key)) return;
  const id = newId();
  const made = await tx.rankingWork.createMany({ data: [{ ...key, id, input: json(input), askedById, askedAt: now() }], skipDuplicates: true });
  if (made.count > 0) await tell(tx, workAsked, { workId: id }, { key: `work ${id}` });
}

/** Keeps what the worker found. */
export async function keepWork(db: Database, granted: Granted<WorkSubject, "reasoning.work-out">, found: { output: RunOutput | null; steadiness: Steadiness | null }): Promise<void> {
  const output = found.output ? json(found.output) : Prisma.DbNull;
  const steadiness = found.steadiness ? json(found.steadiness) : Prisma.DbNull;
  await db.rankingWork.updateMany({ where: { id: granted.id, academyId: granted.academyId }, data: { output, steadiness, doneAt: now() } });
}
