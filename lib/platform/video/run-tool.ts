import { spawn } from "node:child_process";
import type { Writable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { confinedBy } from "./confine";
import { VideoRefused } from "./refusal";

/** What a child process may use. */
export interface ToolLimits {
  readonly timeMs: number;
  /** Most bytes that it may say on standard output; beyond it is ended. */
  readonly outputBytes: number;
  /** Takes the output as it comes, instead of its being gathered. */
  readonly onOutput?: (bytes: Buffer) => void;
  /** What the tool is told on standard input, as fast as it takes it. */
  readonly input?: AsyncIterable<Buffer>;
  /** Takes the output at its own pace: the tool waits for it, so that nothing gathers in between. It is not ended here. */
  readonly into?: Writable;
}

const BROKE_DOWN = -1;

/** A tool ended otherwise than well. What it said is for the log, never for a page. */
export class ToolFailed extends Error {
  constructor(
    readonly tool: string,
    /** Null when it was not there or was stopped from outside: our own trouble, not the file's. */
    readonly exitCode: number | null,
    readonly said: string,
  ) {
    super(`${tool} ended with ${exitCode ?? "a signal"}: ${said.slice(0, 500)}`);
  }

  /** It had no room to write: nothing is wrong with the file. */
  get isDiskFull(): boolean {
    return /No space left on device/.test(this.said);
  }
}

/**
 * Runs one of the video tools on bytes that nobody has vouched for: in a process of its own, without our environment, within a
 * time, and where the system offers it within a memory and a processor time, without any network (see confine.ts).
 * @returns what it wrote on standard output
 * @throws VideoRefused "too-slow" when the time is up; ToolFailed when it ends badly or is not there
 */
export async function runTool(tool: string, args: readonly string[], limits: ToolLimits): Promise<Buffer> {
  const [command = tool, ...rest] = [...(await confinedBy(Math.ceil((limits.timeMs / 1000) * 4))), tool, ...args];
  return new Promise((resolve, reject) => {
    const child = spawn(command, rest, {
      // A group of its own: what stops the worker from a keyboard must not look like a file that cannot be opened.
      detached: true, stdio: [limits.input ? "pipe" : "ignore", "pipe", "pipe"], env: { PATH: "/usr/local/bin:/usr/bin:/bin:/opt/homebrew/bin", LC_ALL: "C", NODE_ENV: "production" },
    });
    const gathered: Buffer[] = [];
    let length = 0;
    let said = "";
    let ended: "late" | "talkative" | null = null;
    const end = (why: "late" | "talkative") => {
      ended ??= why;
      child.kill("SIGKILL");
    };
    const timer = setTimeout(() => end("late"), limits.timeMs);
    if (limits.input && child.stdin) {
      // A tool that ends early breaks the pipe; how it ended is told below.
      pipeline(limits.input, child.stdin).catch(() => child.kill("SIGKILL"));
    }
    // Whoever took the output is gone: then nobody waits for the tool either.
    limits.into?.once("close", () => child.kill("SIGKILL"));
    child.stdout?.on("data", (bytes: Buffer) => {
      length += bytes.length;
      if (length > limits.outputBytes) end("talkative");
      else if (limits.into) {
        if (limits.into.write(bytes)) return;
        child.stdout?.pause();
        limits.into.once("drain", () => child.stdout?.resume());
      } else if (limits.onOutput) limits.onOutput(bytes);
      else gathered.push(bytes);
    });
    child.stderr?.on("data", (bytes: Buffer) => {
      if (said.length < 4000) said += bytes.toString("utf8");
    });
    child.on("error", (error) => {
      clearTimeout(timer);
      reject(new ToolFailed(tool, null, error.message));
    });
    child.on("close", (code, signal) => {
      clearTimeout(timer);
      if (ended === "late" || signal === "SIGXCPU") reject(new VideoRefused("too-slow"));
      else if (code === 0 && ended === null) resolve(Buffer.concat(gathered));
      else reject(new ToolFailed(tool, ended === "talkative" ? BROKE_DOWN : exitOf(code, signal, said), said));
    });
  });
}

const STOPPED_FROM_OUTSIDE: readonly string[] = ["SIGKILL", "SIGTERM", "SIGINT", "SIGHUP"];

/** How a tool ended of itself; null when somebody stopped it, which says nothing of the file. One that breaks down over a file tells of the file. */
function exitOf(code: number | null, signal: string | null, said: string): number | null {
  if (code === null) return signal !== null && STOPPED_FROM_OUTSIDE.includes(signal) ? null : BROKE_DOWN;
  return /received signal/.test(said) ? null : code;
}

/** How the bytes of a video are wrapped. */
export type Container = "mp4" | "mov" | "webm";

/** The options before every input: only this file of this machine, only as the container that it proved to be, no other address followed. */
export function inputOptions(path: string, container: Container = "mp4"): readonly string[] {
  return ["-protocol_whitelist", "file", "-f", container === "webm" ? "matroska" : "mov", "-i", `file:${path}`];
}
