import { spawn } from "node:child_process";
import { access, constants } from "node:fs/promises";
import { log } from "../log";

const MEMORY_BYTES = 4 * 1024 ** 3;
const [SETPRIV, PRLIMIT, UNSHARE] = ["/usr/bin/setpriv", "/usr/bin/prlimit", "/usr/bin/unshare"];

/** Which of the system's bounds can be put around a process here. */
interface Bounds {
  readonly canDieWithUs: boolean;
  readonly canLimit: boolean;
  /** The words that start a program without any network; null where that is not allowed. */
  readonly noNetwork: readonly string[] | null;
}

let known: Promise<Bounds> | null = null;

/**
 * The words before a command that confine it: it ends with the process that started it, stays within a memory of 4 GiB and a processor
 * time, writes no core, and has no network (a network namespace of its own: as root directly, else through a user namespace). What a
 * system does not offer is left out and said once in the log; the options before every input then still forbid every address but a file.
 */
export async function confinedBy(processorSeconds: number): Promise<readonly string[]> {
  const { canDieWithUs, canLimit, noNetwork } = await boundsHere();
  return [
    ...(canDieWithUs ? [SETPRIV, "--pdeathsig", "KILL", "--no-new-privs", "--"] : []),
    ...(canLimit ? [PRLIMIT, `--as=${MEMORY_BYTES}`, `--cpu=${processorSeconds}`, "--core=0"] : []),
    ...(noNetwork ?? []),
  ];
}

/** What can be confined on this machine; tried once. */
export function boundsHere(): Promise<Bounds> {
  known ??= findBounds();
  return known;
}

async function findBounds(): Promise<Bounds> {
  const canDieWithUs = await succeeds([SETPRIV, "--pdeathsig", "KILL", "--no-new-privs", "--", "true"]);
  const canLimit = await isThere(PRLIMIT);
  let noNetwork: readonly string[] | null = null;
  for (const words of [[UNSHARE, "--net", "--"], [UNSHARE, "--map-root-user", "--net", "--"]]) {
    if (noNetwork === null && (await succeeds([...words, "true"]))) noNetwork = words;
  }
  if (!canLimit || !noNetwork) log().warn({ hasLimits: canLimit, isWithoutNetwork: noNetwork !== null }, "the video tools cannot be confined fully on this system");
  return { canDieWithUs, canLimit, noNetwork };
}

function isThere(path: string): Promise<boolean> {
  return access(path, constants.X_OK).then(
    () => true,
    () => false,
  );
}

function succeeds([command = "", ...words]: readonly string[]): Promise<boolean> {
  return new Promise((resolve) => {
    const child = spawn(command, words, { stdio: "ignore" });
    child.on("error", () => resolve(false));
    child.on("close", (code) => resolve(code === 0));
  });
}
