import { expect, test } from "vitest";
import { Living } from "@/lib/worker/living";
import { database } from "@/lib/platform/database";

const url = () => process.env.DATABASE_URL ?? "";
const nobody = () => {
  throw new Error("the connection was lost");
};

/** A job that a worker took so many minutes ago and never gave back. */
async function taken(workerId: string, { ageMinutes = 1, attempts = 2 } = {}): Promise<string> {
  const [row] = await database().$queryRaw<{ id: bigint }[]>`SELECT (graphile_worker.add_job('clips.leftovers-due', '{}'::json)).id AS id`;
  await database().$executeRaw`UPDATE graphile_worker._private_jobs SET locked_by = ${workerId}, locked_at = now(), attempts = ${attempts}, created_at = now() - ${ageMinutes} * interval '1 minute' WHERE id = ${row?.id}`;
  return String(row?.id);
}
const jobOf = async (id: string) => (await database().$queryRaw<{ lockedBy: string | null; attempts: number }[]>`SELECT locked_by AS "lockedBy", attempts FROM graphile_worker.jobs WHERE id = ${BigInt(id)}`)[0];

test("jobs of a dead worker are free at once and the killed try does not count; those of a living one stay its own", async () => {
  const [one, other] = [await Living.begin(url(), nobody), await Living.begin(url(), nobody)];
  await one.add("worker-living");
  const [ofLiving, ofDead] = [await taken("worker-living"), await taken("worker-dead")];
  expect(await other.freeJobsOfTheDead()).toBe(1);
  expect(await jobOf(ofDead)).toEqual({ lockedBy: null, attempts: 1 });
  expect(await jobOf(ofLiving)).toEqual({ lockedBy: "worker-living", attempts: 2 });
  await one.end();
  expect(await other.freeJobsOfTheDead()).toBe(1);
  expect(await jobOf(ofLiving)).toEqual({ lockedBy: null, attempts: 1 });
  await other.end();
});

test("a job that has felled workers for an hour keeps its tries, so that it ends", async () => {
  const living = await Living.begin(url(), nobody);
  const id = await taken("worker-dead", { ageMinutes: 61 });
  await living.freeJobsOfTheDead();
  expect(await jobOf(id)).toEqual({ lockedBy: null, attempts: 2 });
  await living.end();
});
