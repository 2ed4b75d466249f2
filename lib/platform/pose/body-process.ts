import { setPriority } from "node:os";
import { BodyFollower } from "./follow-bodies";
import { loadModel } from "./load-model";
import { OUT_OF_MEMORY, type BodyTask, type FrameBodies } from "./body-task";

/** After everybody else who waits for this machine. */
const KINDNESS = 10;

/** Reads frames from standard input, one picture after the other, and says a line for each: who is on it, and where the joints lie. */
async function main(task: BodyTask): Promise<void> {
  setPriority(KINDNESS);
  // What the runtime says of itself is not an answer.
  console.log = console.info = console.warn = console.error;
  const follower = new BodyFollower(await loadModel());
  const { width, height, seconds } = task;
  const picture = Buffer.alloc(width * height * 3);
  let [filled, done] = [0, 0];
  for await (const chunk of process.stdin as AsyncIterable<Buffer>) {
    for (let from = 0; from < chunk.length && done < seconds.length; ) {
      const taken = chunk.copy(picture, filled, from);
      [from, filled] = [from + taken, filled + taken];
      if (filled < picture.length) continue;
      filled = 0;
      const started = performance.now();
      const bodies = await follower.frame({ bytes: picture, width, height }, seconds[done++] ?? 0);
      const said: FrameBodies = { bodies, ms: performance.now() - started };
      process.stdout.write(`${JSON.stringify(said)}\n`);
      if (process.memoryUsage().rss > task.memoryBytes) process.exit(OUT_OF_MEMORY);
    }
  }
}

main(JSON.parse(process.argv[2] ?? "{}") as BodyTask).catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
});
