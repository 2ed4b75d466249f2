import { defineConfig } from "vitest/config";
import path from "node:path";

/** Pure code (`unit`) needs nothing; tests with a database (`data`) get one clone of a template per file. */
export default defineConfig({
  resolve: { alias: { "@": path.resolve(import.meta.dirname) } },
  test: {
    env: { TZ: "UTC" },
    maxWorkers: 2,
    // No test measures time; what is slow on a busy machine is still right.
    testTimeout: 30_000,
    hookTimeout: 30_000,
    projects: [
      {
        extends: true,
        // Pure code keeps no state from file to file, so that what is imported is imported once.
        test: { name: "unit", isolate: false, include: ["lib/**/*.test.ts", "seed/**/*.test.ts", "tests/{reference,architecture,golden}/**/*.test.ts"] },
      },
      {
        extends: true,
        test: {
          name: "data",
          include: ["tests/{domains,access}/**/*.test.ts"],
          globalSetup: ["tests/support/database.global.ts"],
          setupFiles: ["tests/support/setup.ts"],
          testTimeout: 60_000,
          hookTimeout: 120_000,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
