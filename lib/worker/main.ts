import path from "node:path";
import { Logger, run, type TaskList } from "graphile-worker";
import { closeDatabase } from "@/lib/platform/database";
import { log } from "@/lib/platform/log";
import { settings } from "@/lib/platform/settings";
import { collectJobs } from "./collect";

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
  const runner = await run({
    connectionString: settings().DATABASE_URL,
    taskList,
    concurrency: 2,
    pollInterval: 2000,
    noHandleSignals: false,
    logger: new Logger(() => (level, message) => {
      if (level === "error" || level === "warning") log().warn({ message }, "queue");
    }),
  });
  log().info({ jobs: jobs.size }, "worker ready");
  await runner.promise;
  await closeDatabase();
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
