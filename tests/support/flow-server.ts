import { existsSync } from "node:fs";
import { mkdir, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import pg from "pg";
import { applyMigrations } from "@/lib/start/migrations";
import { createDatabase, startPostgres } from "@/lib/start/postgres";
import { runBinary, runTypeScript, startTypeScript } from "@/lib/start/programs";
import { prepareQueue } from "@/lib/platform/queue";

/** The house as the flows visit it: fresh database, demo academy, a clock that starts on a known afternoon. */
async function main(): Promise<void> {
  const port = process.env.FLOW_PORT ?? "4173";
  const folder = path.resolve(".data/flows");
  await rm(folder, { recursive: true, force: true });
  await mkdir(folder, { recursive: true });
  const server = await startPostgres(path.resolve(".data/flow-postgres"), "thrown-away");
  const client = new pg.Client({ connectionString: server.urlOf("postgres") });
  await client.connect();
  await client.query("DROP DATABASE IF EXISTS flows WITH (FORCE)");
  await client.end();
  await createDatabase(server, "flows");
  const environment = {
    DATABASE_URL: server.urlOf("flows"),
    APP_URL: `http://localhost:${port}`,
    NEXTAUTH_URL: `http://localhost:${port}`,
    AUTH_SECRET: "a secret for the flows only, long enough for all",
    BLOB_DIR: path.join(folder, "blobs"),
    MAIL_DIR: path.join(folder, "mail"),
    DEMO: "on",
    DEMO_CLIPS: "small",
    // The model would take the machine from the browser, and what it finds is no part of these pages' stories.
    SUGGEST_POINTS: "off",
    CLOCK_STARTS_AT: "2026-11-25T15:00:00Z",
    LOG_LEVEL: "warn",
    NODE_ENV: "production" as const,
    NEXT_TELEMETRY_DISABLED: "1",
    PORT: port,
    TZ: "UTC",
  };
  await writeFile(path.join(folder, "environment.json"), JSON.stringify(environment));
  await applyMigrations(environment.DATABASE_URL, path.resolve("prisma/migrations"));
  await prepareQueue(environment.DATABASE_URL);
  if (!existsSync(".next/BUILD_ID")) await runBinary("next", ["build"], environment, true);
  console.log(await runTypeScript("seed/main.ts", [], environment));
  const children = [startTypeScript("lib/start/server.ts", environment), startTypeScript("lib/worker/main.ts", environment)];
  const stop = async () => {
    for (const child of children) child.kill("SIGTERM");
    await server.stop();
    process.exit(0);
  };
  process.on("SIGTERM", () => void stop());
  process.on("SIGINT", () => void stop());
  for (const child of children) child.on("exit", (code) => code && process.exit(code));
}

main().catch((error: unknown) => {
  console.error(error);
  process.exit(1);
});
