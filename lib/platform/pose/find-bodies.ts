import { spawn } from "node:child_process";
import path from "node:path";
import type { Writable } from "node:stream";
import { OUT_OF_MEMORY, type BodyTask, type FrameBodies } from "./body-task";

const MEMORY_BYTES = 900 * 1024 ** 2;
const START_MS = 60_000;
const FRAME_MS = 5000;

/** The model did not come to its end: it is said why, for the log. */
export class BodiesNotFound extends Error {}

/**
 * Finds the people on some pictures with the model, in a process of its own that has a time and a memory, and none of our settings.
 * @param give writes the pictures, one after the other, and waits where the process is slower
 * @returns one answer a picture, in their order; fewer when fewer were given
 * @throws BodiesNotFound when it takes too long, grows too large or ends badly
 */
export async function findBodies(task: Omit<BodyTask, "memoryBytes">, give: (pictures: Writable) => Promise<unknown>): Promise<readonly FrameBodies[]> {
  const script = path.resolve("lib/platform/pose/body-process.mjs");
  const given: BodyTask = { ...task, memoryBytes: MEMORY_BYTES };
  const child = spawn(process.execPath, ["--max-old-space-size=256", script, JSON.stringify(given)], {
    stdio: ["pipe", "pipe", "pipe"],
    env: { PATH: "/usr/local/bin:/usr/bin:/bin", NODE_ENV: "production" },
  });
  let [answered, said, isLate] = ["", "", false];
  child.stdout.on("data", (bytes: Buffer) => (answered += bytes.toString("latin1")));
  child.stderr.on("data", (bytes: Buffer) => (said = (said + bytes.toString("utf8")).slice(-2000)));
  // A process that ended takes no more pictures: that it ended is what counts.
  child.stdin.on("error", () => undefined);
  const timer = setTimeout(() => {
    isLate = true;
    child.kill("SIGKILL");
  }, START_MS + FRAME_MS * task.seconds.length);
  const ended = new Promise<number | null>((resolve, reject) => {
    child.on("error", reject);
    child.on("close", resolve);
  });
  try {
    // Pictures that could not be given matter only when the process did not end badly itself: then that is the reason.
    const trouble = Promise.resolve(give(child.stdin)).then(() => null, (error: unknown) => error).finally(() => child.stdin.end());
    const code = await ended;
    if (isLate) throw new BodiesNotFound("the model took too long");
    if (code === OUT_OF_MEMORY) throw new BodiesNotFound("the model grew too large");
    if (code !== 0) throw new BodiesNotFound(`the model ended with ${code ?? "a signal"}: ${said}`);
    const error = await trouble;
    if (error !== null) throw error;
  } finally {
    clearTimeout(timer);
    child.kill("SIGKILL");
  }
  return answered.split("\n").filter(Boolean).map((line) => JSON.parse(line) as FrameBodies);
}
