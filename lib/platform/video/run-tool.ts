import { spawn } from "node:child_process";
import { access, constants } from "node:fs/promises";
import { VideoRefused } from "./refusal";

/** What a child process may use. */
export interface ToolLimits {
  readonly timeMs: number;
  /** Most bytes that it may say on standard output; beyond it is ended. */
  readonly outputBytes: number;
  /** Takes the output as it comes, instead of its being gathered. */
  readonly onOutput?: (bytes: Buffer) => void;
}

/** A tool ended otherwise than well. What it said is for the log, never for a page. */
export class ToolFailed extends Error {
  constructor(
    readonly tool: string,
    readonly exitCode: number | null,
    readonly said: string,
  ) {
    super(`${tool} ended with ${exitCode ?? "a signal"}: ${said.slice(0, 500)}`);
  }
}

const MEMORY_BYTES = 4 * 1024 ** 3;
const PRLIMIT = "/usr/bin/prlimit";
let hasPrlimit: Promise<boolean> | null = null;

/**
 * Runs one of the video tools on bytes that nobody has vouched for: in a process of its own, without our environment,
 * within a time, and where the system offers it within a memory and a processor time.
 * @returns what it wrote on standard output
 * @throws VideoRefused "too-slow" when the time is up; ToolFailed when it ends badly or is not there
 */
export async function runTool(tool: string, args: readonly string[], limits: ToolLimits): Promise<Buffer> {
  hasPrlimit ??= access(PRLIMIT, constants.X_OK).then(
    () => true,
    () => false,
  );
  const cpuSeconds = Math.ceil((limits.timeMs / 1000) * 4);
  const bounds = (await hasPrlimit) ? [PRLIMIT, `--as=${MEMORY_BYTES}`, `--cpu=${cpuSeconds}`, "--core=0"] : [];
  const [command = tool, ...rest] = [...bounds, tool, ...args];
  return new Promise((resolve, reject) => {
    const child = spawn(command, rest, { stdio: ["ignore", "pipe", "pipe"], env: { PATH: "/usr/local/bin:/usr/bin:/bin:/opt/homebrew/bin", LC_ALL: "C", NODE_ENV: "production" } });
    const gathered: Buffer[] = [];
    let length = 0;
    let said = "";
    let ended: "late" | "talkative" | null = null;
    const end = (why: "late" | "talkative") => {
      ended ??= why;
      child.kill("SIGKILL");
    };
    const timer = setTimeout(() => end("late"), limits.timeMs);
    child.stdout.on("data", (bytes: Buffer) => {
      length += bytes.length;
      if (length > limits.outputBytes) end("talkative");
      else if (limits.onOutput) limits.onOutput(bytes);
      else gathered.push(bytes);
    });
    child.stderr.on("data", (bytes: Buffer) => {
      if (said.length < 4000) said += bytes.toString("utf8");
    });
    child.on("error", (error) => {
      clearTimeout(timer);
      reject(new ToolFailed(tool, null, error.message));
    });
    child.on("close", (code) => {
      clearTimeout(timer);
      if (ended === "late") reject(new VideoRefused("too-slow"));
      else if (code === 0 && ended === null) resolve(Buffer.concat(gathered));
      else reject(new ToolFailed(tool, code, said));
    });
  });
}

/** The options before every input: only this file of this machine, only as an MP4 or MOV, no other address followed. */
export function inputOptions(path: string): readonly string[] {
  return ["-protocol_whitelist", "file", "-f", "mov", "-i", `file:${path}`];
}
