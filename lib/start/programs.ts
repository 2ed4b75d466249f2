import { spawn, type ChildProcess } from "node:child_process";
import path from "node:path";

type Environment = Readonly<Record<string, string | undefined>>;

// Prisma asks the driver for several things of one transaction at once, which the driver queues and its next major version
// will refuse; until Prisma does otherwise the warning would only trouble whoever starts the house.
const NODE_FLAGS = ["--no-deprecation", "--import", "tsx"];

const binary = (name: string) => path.resolve("node_modules", ".bin", name);

/** Runs a program to its end. @throws Error with what it said when it fails */
export function runProgram(name: string, args: readonly string[], environment: Environment = {}, show = false): Promise<string> {
  return new Promise((resolve, reject) => {
    const child = spawn(name, args, { env: { ...process.env, ...environment } as NodeJS.ProcessEnv, stdio: ["ignore", "pipe", "pipe"] });
    const said: string[] = [];
    const heard: string[] = [];
    child.stdout.on("data", (bytes: Buffer) => {
      said.push(String(bytes));
      heard.push(String(bytes));
      if (show) process.stdout.write(bytes);
    });
    child.stderr.on("data", (bytes: Buffer) => {
      heard.push(String(bytes));
      if (show) process.stderr.write(bytes);
    });
    child.on("error", reject);
    child.on("exit", (code) => (code === 0 ? resolve(said.join("")) : reject(new Error(`${path.basename(name)} ${args.join(" ")} ended with ${code}:\n${heard.join("").slice(-4000)}`))));
  });
}

export function runBinary(name: string, args: readonly string[], environment: Environment = {}, show = false): Promise<string> {
  return runProgram(binary(name), args, environment, show);
}

export function runTypeScript(file: string, args: readonly string[], environment: Environment, show = false): Promise<string> {
  return runProgram(process.execPath, [...NODE_FLAGS, file, ...args], environment, show);
}

/** Starts a program of ours that goes on running. */
export function startTypeScript(file: string, environment: Environment, stdio: "inherit" | "ignore" = "inherit"): ChildProcess {
  return spawn(process.execPath, [...NODE_FLAGS, file], { env: { ...process.env, ...environment } as NodeJS.ProcessEnv, stdio: ["ignore", stdio, stdio] });
}

/** A program of ours that is started again when it dies, up to five times within a minute. */
export interface Kept {
  /** Called when it died too often to be started again. */
  onGivenUp(listener: () => void): void;
  stop(): Promise<void>;
}

export function keepTypeScriptRunning(file: string, environment: Environment): Kept {
  let deaths: number[] = [];
  let isStopping = false;
  let giveUp = () => undefined as void;
  let child = launch();
  function launch(): ChildProcess {
    const started = startTypeScript(file, environment);
    started.on("exit", () => {
      if (isStopping) return;
      deaths = [...deaths.filter((at) => Date.now() - at < 60_000), Date.now()];
      if (deaths.length >= 5) return giveUp();
      console.error(`${file} ended and is started again; nothing is lost.`);
      setTimeout(() => {
        if (!isStopping) child = launch();
      }, 1000);
    });
    return started;
  }
  return {
    onGivenUp: (listener) => {
      giveUp = listener;
    },
    stop: async () => {
      isStopping = true;
      await endOf(child);
    },
  };
}

/** Ends a program kindly and waits until it has ended. */
export async function endOf(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const ended = new Promise((resolve) => child.once("exit", resolve));
  child.kill("SIGTERM");
  await ended;
}
