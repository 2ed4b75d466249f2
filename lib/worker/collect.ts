import path from "node:path";
import { globSync } from "tinyglobby";
import type { Job } from "@/lib/access/define-job";
import type { EventDefinition } from "@/lib/core/event";

/**
 * Every job of the house, by name. Each event that a domain declares has exactly one job, and no job is without its
 * event. @throws Error that names each one that is missing or double
 */
export function matchJobs(events: readonly EventDefinition[], jobs: readonly Job[]): ReadonlyMap<string, Job> {
  const problems: string[] = [];
  for (const event of events) {
    const count = jobs.filter((job) => job.name === event.name).length;
    if (count !== 1) problems.push(`The event ${event.name} has ${count === 0 ? "no job" : `${count} jobs`}.`);
  }
  for (const job of jobs) {
    if (!events.some((event) => event.name === job.name)) problems.push(`The job ${job.name} belongs to no event.`);
  }
  if (problems.length > 0) throw new Error(problems.join("\n"));
  return new Map(jobs.map((job) => [job.name, job]));
}

/** Loads the events and jobs of all domains from their files. */
export async function collectJobs(root: string): Promise<ReadonlyMap<string, Job>> {
  const exportsOf = async (file: string) => Object.values((await import(path.join(root, file))) as Record<string, unknown>);
  const all = async <T>(layer: string, isOne: (value: unknown) => value is T): Promise<T[]> => {
    const files = globSync([`lib/domains/*/${layer}.ts`, `lib/domains/*/*/${layer}.ts`], { cwd: root }).sort();
    return (await Promise.all(files.map(exportsOf))).flat().filter(isOne);
  };
  return matchJobs(await all("events", isEvent), await all("jobs", isJob));
}

function isEvent(value: unknown): value is EventDefinition {
  return typeof value === "object" && value !== null && "name" in value && "payload" in value;
}

function isJob(value: unknown): value is Job {
  return typeof value === "object" && value !== null && "name" in value && "perform" in value;
}
