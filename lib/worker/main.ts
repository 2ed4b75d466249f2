import path from "node:path";
import { EventEmitter } from "node:events";
import { Logger, parseCronItems, run, type TaskList, type WorkerEvents } from "graphile-worker";
import { closeDatabase } from "@/lib/platform/database";
import { log } from "@/lib/platform/log";
import { settings } from "@/lib/platform/settings";
import { collectJobs } from "./collect";
import { Living } from "./living";

const LOOK_FOR_DEAD_MS = 30_000;

/** The worker: takes what was told from the database and does the slow part. Killing it loses nothing. */
async function main(): Promise<void> {
  const jobs = await collectJobs(path.resolve(import.meta.dirname, "../.."));
  const taskList: TaskList = {};
  for (const [name, job] of jobs) {
    taskList[name] = async (payload, helpers) => {
      const outcome = await job.perform(payload, helpers.job.attempts >= helpers.job.max_attempts);
      log().info({ job: name, id: helpers.job.id, outcome: outcome.is, because: "because" in outcome ? outcome.because : undefined }, "job ended");
    };
  }
  const connectionString = settings().DATABASE_URL;
  const living = await Living.begin(connectionString, () => {
    log().error("the connection that says this worker lives was lost; it ends, and its jobs are taken over");
    process.exit(1);
  });
  await freeJobs(living);
  // What the last death left on the way is looked for before the first hour is over.
  const dueNow = [...jobs.values()].flatMap(({ name, every }) => (every ? [name] : []));
  const events: WorkerEvents = new EventEmitter();
  events.on("worker:create", ({ worker }) => void living.add(worker.workerId));
  const runner = await run({
    connectionString,
    taskList,
    events,
    parsedCronItems: parseCronItems([...jobs.values()].flatMap(({ name, every }) => (every ? [{ task: name, match: every, identifier: name }] : []))),
    concurrency: 2,
    pollInterval: 2000,
    noHandleSignals: false,
    logger: new Logger(() => (level, message) => {
      if (level === "error" || level === "warning") log().warn({ message }, "queue");
    }),
  });
  for (const name of dueNow) await runner.addJob(name, {}, { jobKey: `at start: ${name}` });
  const looking = setInterval(() => void freeJobs(living), LOOK_FOR_DEAD_MS);
  log().info({ jobs: jobs.size }, "worker ready");
  await runner.promise;
  clearInterval(looking);
  await living.end();
  await closeDatabase();
}

async function freeJobs(living: Living): Promise<void> {
  const count = await living.freeJobsOfTheDead();
  if (count > 0) log().warn({ count }, "jobs of a worker that died were freed");
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
