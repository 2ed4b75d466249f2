import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { boundsHere, confinedBy } from "@/lib/platform/video/confine";
import { runTool, ToolFailed } from "@/lib/platform/video/run-tool";

const bounds = await boundsHere();

/** What a program says that is confined as the video tools are. */
async function confined(...words: string[]): Promise<string> {
  const [command = "", ...rest] = [...(await confinedBy(60)), ...words];
  return execFileSync(command, rest).toString();
}

describe("a tool that reads what nobody has vouched for", () => {
  test.runIf(bounds.noNetwork !== null)("has no network: it sees its own loop and nothing else", async () => {
    const names = (await confined("cat", "/proc/net/dev")).split("\n").slice(2).flatMap((line) => line.split(":")[0]?.trim() || []);
    expect(names).toEqual(["lo"]);
  });

  test.runIf(bounds.canLimit)("has a bound of memory and of processor time, and leaves no core", async () => {
    const limits = await confined("cat", "/proc/self/limits");
    expect(limits).toMatch(/Max address space\s+4294967296\s/);
    expect(limits).toMatch(/Max cpu time\s+60\s/);
    expect(limits).toMatch(/Max core file size\s+0\s/);
  });

  test("sees nothing of our settings", async () => {
    const said = (await runTool("/usr/bin/env", [], { timeMs: 20_000, outputBytes: 10_000 })).toString();
    expect(said).not.toMatch(/DATABASE_URL|AUTH_SECRET/);
  });

  test("that runs past its time, or says too much, is ended and tells of the file", async () => {
    await expect(runTool("/bin/sleep", ["30"], { timeMs: 300, outputBytes: 10 })).rejects.toMatchObject({ reason: "too-slow" });
    await expect(runTool("/usr/bin/yes", [], { timeMs: 20_000, outputBytes: 1000 })).rejects.toMatchObject({ exitCode: -1 });
  });

  test.runIf(existsSync("/bin/sh"))("that breaks down tells of the file; one that somebody stopped, or that is not there, does not", async () => {
    const end = (signal: string) => runTool("/bin/sh", ["-c", `kill -${signal} $$`], { timeMs: 20_000, outputBytes: 10 }).catch((error: unknown) => (error instanceof ToolFailed ? error.exitCode : error));
    expect(await end("SEGV")).toBe(-1);
    expect(await end("TERM")).toBeNull();
    expect(await end("KILL")).toBeNull();
  });
});
