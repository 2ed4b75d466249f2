import path from "node:path";
import { Worker } from "node:worker_threads";

/** What came of a model: proved best, good within its gap, impossible, or nothing within the time. */
export interface SolverAnswer {
  readonly status: "best" | "good" | "impossible" | "no-answer";
  /** Relative distance to the best possible that is not ruled out; 0 = proved best. */
  readonly gap: number;
  /** The value of each column, by its name in the text. */
  readonly values: Readonly<Record<string, number>>;
}

interface Waiting {
  readonly resolve: (answer: SolverAnswer) => void;
  readonly reject: (error: Error) => void;
}

/** Beyond its own limit the thread gets this long before it is given up. */
const GRACE_SECONDS = 10;

let thread: Worker | null = null;
let asked = 0;
const waiting = new Map<number, Waiting>();

function giveUp(gone: Worker, reason: Error): void {
  if (thread !== gone) return;
  thread = null;
  for (const { reject } of waiting.values()) reject(reason);
  waiting.clear();
}

function startThread(): Worker {
  // Not written as "new Worker": a bundler would pack the thread's file and lose the solver's own beside it.
  const started: Worker = Reflect.construct(Worker, [path.join(process.cwd(), "lib", "platform", "solver-thread.mjs")]);
  started.unref();
  started.on("message", ({ id, answer, problem }: { id: number; answer?: SolverAnswer; problem?: string }) => {
    const one = waiting.get(id);
    waiting.delete(id);
    if (waiting.size === 0) started.unref();
    if (answer) one?.resolve(answer);
    else one?.reject(new Error(`the solver could not read the model: ${problem}`));
  });
  started.on("error", (error) => giveUp(started, error instanceof Error ? error : new Error(String(error))));
  started.on("exit", (code) => giveUp(started, new Error(`the solver's thread ended with ${code}`)));
  return started;
}

/**
 * Solves a model in CPLEX LP text with HiGHS in a thread of its own (it blocks its thread), one after the other.
 * @param seconds the solver stops after this long and says how far from the best it may be
 * @throws Error when the text is no model, or when the thread ended or hung
 */
export async function solveLinearModel(lpText: string, seconds: number): Promise<SolverAnswer> {
  const on = (thread ??= startThread());
  const id = ++asked;
  on.ref();
  const answer = new Promise<SolverAnswer>((resolve, reject) => waiting.set(id, { resolve, reject }));
  on.postMessage({ id, lpText, seconds });
  const before = waiting.size;
  const hung = setTimeout(() => {
    giveUp(on, new Error("the solver did not answer in time"));
    void on.terminate();
  }, 1000 * (seconds * before + GRACE_SECONDS));
  return answer.finally(() => clearTimeout(hung));
}
