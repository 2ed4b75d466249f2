import { makeWorkerUtils } from "graphile-worker";
import type { Transaction } from "./database";
import { settings } from "./settings";

/**
 * Slow work to be done later. It is a row of the same database, so it is added in the transaction that made it needed:
 * both happen or neither (this is the outbox). A payload holds identifiers only; the job reads the rest anew.
 */
export interface JobRequest {
  readonly name: string;
  readonly payload: Readonly<Record<string, string | number>>;
  /** Requests with the same key that still wait become one. */
  readonly key?: string;
  readonly runAt?: Date;
}

export async function addJob(tx: Transaction, job: JobRequest): Promise<void> {
  await tx.$executeRaw`
    SELECT graphile_worker.add_job(
      identifier => ${job.name}::text,
      payload => ${JSON.stringify(job.payload)}::json,
      run_at => ${job.runAt ?? null}::timestamptz,
      max_attempts => 5,
      job_key => ${job.key ?? null}::text)`;
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
