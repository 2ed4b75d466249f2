import { describe, expect, test } from "vitest";
import { z } from "zod";
import { DONE, defineJob } from "@/lib/access/define-job";
import { defineEvent } from "@/lib/core/event";
import { matchJobs } from "./collect";

const event = (name: string) => defineEvent(name, z.object({ id: z.string() }));
const job = (name: string) => defineJob(event(name), async () => DONE);

describe("the jobs of the house", () => {
  test("each event finds its one job", () => {
    expect([...matchJobs([event("a"), event("b")], [job("b"), job("a")]).keys()].sort()).toEqual(["a", "b"]);
  });

  test("an event without a job, an event with two and a job without an event stop the start, each by name", () => {
    expect(() => matchJobs([event("a")], [])).toThrow("The event a has no job.");
    expect(() => matchJobs([event("a")], [job("a"), job("a")])).toThrow("The event a has 2 jobs.");
    expect(() => matchJobs([], [job("c")])).toThrow("The job c belongs to no event.");
  });

  test("a payload of another form is refused before the job sees it", async () => {
    await expect(job("a").perform({ id: 1 }, false)).rejects.toThrow();
  });
});
