import { makeWorkerUtils } from "graphile-worker";
import type { EventDefinition } from "@/lib/core/event";
import type { Database } from "./database";
import { settings } from "./settings";

interface Telling {
  /** Tellings with the same key that still wait become one. */
  readonly key?: string;
  readonly runAt?: Date;
  readonly tries?: number;
  /** Jobs of the same line are done one after the other, so that long ones leave the worker free for short ones. */
  readonly line?: string;
}

/**
 * Tells the worker that something happened. It is a row of the same database, so it is told in the transaction that
 * made it happen: both are kept or neither (this is the outbox).
 */
export async function tell<P extends Readonly<Record<string, string | number>>>(
  tx: Database,
  event: EventDefinition<P>,
  payload: P,
  telling: Telling = {},
): Promise<void> {
  await tx.$executeRaw`
    SELECT graphile_worker.add_job(
      identifier => ${event.name}::text,
      payload => ${JSON.stringify(payload)}::json,
      run_at => ${telling.runAt ?? null}::timestamptz,
      max_attempts => ${telling.tries ?? 5}::int,
      job_key => ${telling.key ?? null}::text,
      queue_name => ${telling.line ?? null}::text)`;
}

/** Whether something told under a key still waits or is being worked on, was given up after all its tries, or is not known. */
export async function stateOfTold(db: Database, key: string): Promise<"waiting" | "given-up" | "unknown"> {
  const [row] = await db.$queryRaw<{ isAlive: boolean }[]>`SELECT locked_at IS NOT NULL OR attempts < max_attempts AS "isAlive" FROM graphile_worker.jobs WHERE key = ${key}`;
  return row ? (row.isAlive ? "waiting" : "given-up") : "unknown";
}

/** Creates the queue's own tables; safe to repeat. */
export async function prepareQueue(connectionString = settings().DATABASE_URL): Promise<void> {
  const utils = await makeWorkerUtils({ connectionString });
  try {
    await utils.migrate();
  } finally {
    await utils.release();
  }
}
