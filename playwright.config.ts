import { defineConfig } from "@playwright/test";

const port = Number(process.env.FLOW_PORT ?? 4173);

/** Flows run in a real browser against the built pages, a worker and a database of their own. */
export default defineConfig({
  testDir: "tests/flows",
  // Nothing here measures time: what is slow on a busy machine is still right.
  timeout: 180_000,
  expect: { timeout: 20_000 },
  fullyParallel: false,
  // Two files at a time: each has players of its own. Within a file the order holds.
  workers: 2,
  retries: 0,
  forbidOnly: true,
  reporter: process.env.FLOW_REPORT ? [["list"], ["json", { outputFile: process.env.FLOW_REPORT }]] : [["list"]],
  use: {
    baseURL: `http://localhost:${port}`,
    locale: "en-US",
    timezoneId: "America/Chicago",
    viewport: { width: 1440, height: 900 },
    screenshot: "only-on-failure",
    launchOptions: {
      executablePath: process.env.CHROMIUM_PATH ?? "/usr/bin/chromium",
      args: [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
      ],
    },
  },
  webServer: {
    command: "node --import tsx tests/support/flow-server.ts",
    url: `http://localhost:${port}/api/health`,
    timeout: 600_000,
    reuseExistingServer: !process.env.CI,
    gracefulShutdown: { signal: "SIGTERM", timeout: 15_000 },
    stdout: "pipe",
    env: { FLOW_PORT: String(port) },
  },
});
