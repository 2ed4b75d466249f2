import { Worker } from "node:worker_threads";

/** Threads that wait for the next swing: one that has drawn before is warm, which is half of a short film's cost. They keep no process alive. */
const waiting: Worker[] = [];

export function borrowThreads(count: number): Worker[] {
  return Array.from({ length: count }, () => {
    const thread = waiting.pop() ?? new Worker(new URL("./render-worker.mjs", import.meta.url));
    thread.ref();
    return thread;
  });
}

/** For threads that have nothing left to draw. */
export function giveBackThreads(threads: readonly Worker[]): void {
  for (const thread of threads) {
    thread.unref();
    waiting.push(thread);
  }
}

/** For threads that were broken off amid a swing. */
export async function endThreads(threads: readonly Worker[]): Promise<void> {
  await Promise.all(threads.map((thread) => thread.terminate()));
}
