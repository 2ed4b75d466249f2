import { existsSync } from "node:fs";
import { mkdir, readFile, rm } from "node:fs/promises";
import path from "node:path";
import { ensureChromium, ensureFfmpeg } from "./media-tools";
import { runBinary } from "./programs";
import { whenChanged } from "./stamps";

interface Count {
  readonly passed: number;
  readonly failed: number;
}

const REPORTS = path.resolve(".data/reports");

/** Everything that must be green, and at the end one line that adds up what the runners themselves report. */
async function main(): Promise<void> {
  ensureFfmpeg();
  const chromium = ensureChromium(process.env.CHROMIUM_PATH);
  await rm(REPORTS, { recursive: true, force: true });
  await mkdir(REPORTS, { recursive: true });
  const environment = { CHROMIUM_PATH: chromium, NEXT_TELEMETRY_DISABLED: "1", TZ: "UTC" };
  const generate = () => runBinary("prisma", ["generate"], { PRISMA_SCHEMA_ENGINE_BINARY: "/bin/true", CHECKPOINT_DISABLE: "1" }).then(() => undefined);
  if (!existsSync("lib/platform/generated/client.ts")) await generate();
  else await whenChanged("generated", ["prisma/*.prisma"], generate);

  const checks = await checkAll([
    ["types", "tsc", ["--noEmit"]],
    ["lint", "eslint", ["."]],
    ["import table", "depcruise", ["lib", "app", "seed", "tests", "proxy.ts", "--config", ".dependency-cruiser.cjs"]],
  ]);
  const unitReport = path.join(REPORTS, "vitest.json");
  await attempt("vitest", ["run", "--reporter=default", "--reporter=json", `--outputFile.json=${unitReport}`], environment);
  const built = await checkAll([["build", "next", ["build"]]], { ...environment, NODE_ENV: "production" });
  const flowReport = path.join(REPORTS, "playwright.json");
  if (built.failed === 0) await attempt("playwright", ["test"], { ...environment, FLOW_REPORT: flowReport, CI: "1" });

  const unit = await vitestCount(unitReport);
  const flows = await playwrightCount(flowReport);
  const ranNothing = [unit, flows].filter((count) => count.passed + count.failed === 0).length;
  const total = { passed: unit.passed + flows.passed, failed: unit.failed + flows.failed + checks.failed + built.failed + ranNothing };
  console.log(`\nVitest ${unit.passed} passed, ${unit.failed} failed; Playwright ${flows.passed} passed, ${flows.failed} failed.`);
  console.log(`${total.passed} passed, ${total.failed} failed`);
  process.exit(total.failed === 0 ? 0 : 1);
}

async function attempt(name: string, args: readonly string[], environment: Readonly<Record<string, string>>): Promise<boolean> {
  try {
    await runBinary(name, args, environment, true);
    return true;
  } catch {
    return false;
  }
}

/** Checks that are not counted as tests, side by side; one that fails counts as a failure. */
async function checkAll(checks: readonly (readonly [string, string, readonly string[]])[], environment: Readonly<Record<string, string>> = {}): Promise<{ failed: number }> {
  const outcomes = await Promise.all(
    checks.map(async ([what, program, args]) => {
      try {
        await runBinary(program, args, environment);
        console.log(`${what}: in order`);
        return 0;
      } catch (error) {
        console.error(`${what}: not in order\n${error instanceof Error ? error.message : String(error)}`);
        return 1;
      }
    }),
  );
  return { failed: outcomes.reduce<number>((sum, failed) => sum + failed, 0) };
}

async function vitestCount(file: string): Promise<Count> {
  if (!existsSync(file)) return { passed: 0, failed: 0 };
  const report = JSON.parse(await readFile(file, "utf8")) as { numPassedTests: number; numFailedTests: number; numFailedTestSuites: number; success: boolean };
  const failed = Math.max(report.numFailedTests, report.success ? 0 : 1);
  return { passed: report.numPassedTests, failed };
}

async function playwrightCount(file: string): Promise<Count> {
  if (!existsSync(file)) return { passed: 0, failed: 0 };
  const { stats, errors } = JSON.parse(await readFile(file, "utf8")) as { stats: { expected: number; unexpected: number; flaky: number }; errors: unknown[] };
  return { passed: stats.expected, failed: stats.unexpected + stats.flaky + errors.length };
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  console.log("0 passed, 1 failed");
  process.exit(1);
});
