import { existsSync } from "node:fs";
import path from "node:path";
import { readSettings } from "@/lib/platform/settings";
import { localAddresses } from "./certificate";
import { ensureFfmpeg } from "./media-tools";
import { applyMigrations } from "./migrations";
import { readOptions, USAGE } from "./options";
import { createDatabase, startPostgres, type RunningPostgres } from "./postgres";
import { endOf, keepTypeScriptRunning, runBinary, runTypeScript, startTypeScript } from "./programs";
import { keptSecret } from "./secret";
import { whenChanged } from "./stamps";

const SOURCES = ["app/**/*", "lib/**/*", "public/**/*", "proxy.ts", "next.config.mjs", "package-lock.json", "prisma/*.prisma", "tsconfig.json"];

async function main(words: readonly string[]): Promise<void> {
  if (words.includes("--help")) return console.log(USAGE);
  const options = readOptions(words);
  const data = path.resolve(".data");
  ensureFfmpeg();

  let server: RunningPostgres | null = null;
  let databaseUrl = process.env.DATABASE_URL ?? "";
  if (!databaseUrl) {
    server = await startPostgres(path.join(data, "postgres"));
    await createDatabase(server, "cagebook");
    databaseUrl = server.urlOf("cagebook");
  }
  const address = process.env.APP_URL ?? `${options.isHttps ? "https" : "http"}://${options.isHttps ? (localAddresses()[0] ?? "localhost") : "localhost"}:${options.port}`;
  const environment = {
    DATABASE_URL: databaseUrl,
    APP_URL: address,
    NEXTAUTH_URL: address,
    AUTH_SECRET: process.env.AUTH_SECRET ?? (await keptSecret(data)),
    BLOB_DIR: process.env.BLOB_DIR ?? path.join(data, "blobs"),
    MAIL_DIR: process.env.MAIL_DIR ?? path.join(data, "mail"),
    DEMO: options.hasDemo ? "on" : "off",
    LOG_LEVEL: process.env.LOG_LEVEL ?? "warn",
    NEXT_TELEMETRY_DISABLED: "1",
    NODE_ENV: options.isDevelopment ? "development" : "production",
    PORT: String(options.port),
    HTTPS: options.isHttps ? "local" : undefined,
  };
  readSettings({ ...process.env, ...environment });

  if (!existsSync("lib/platform/generated/client.ts")) await generate();
  else await whenChanged("generated", ["prisma/*.prisma"], generate);
  const applied = await applyMigrations(databaseUrl, path.resolve("prisma/migrations"));
  if (applied.length > 0) console.log(`Database: ${applied.length} migrations applied.`);
  const { prepareQueue } = await import("@/lib/platform/queue");
  await prepareQueue(databaseUrl);
  const signIns = await runTypeScript("seed/main.ts", options.adminMail ? ["--admin", options.adminMail] : [], environment);

  if (!options.isDevelopment) {
    await whenChanged("build", SOURCES, async () => {
      console.log("Building the pages (about a minute, once) …");
      await runBinary("next", ["build"], environment);
    });
  }
  const pages = startTypeScript("lib/start/server.ts", environment);
  const worker = keepTypeScriptRunning("lib/worker/main.ts", environment);
  await untilAnswers(`http${options.isHttps ? "s" : ""}://localhost:${options.port}/api/health`);
  console.log(greeting(address, options.isHttps, signIns));
  const films = options.hasDemo ? startTypeScript("seed/films.ts", environment) : null;

  let isStopping = false;
  const stop = async (code: number) => {
    if (isStopping) return;
    isStopping = true;
    await Promise.all([endOf(pages), worker.stop(), films ? endOf(films) : null]);
    await server?.stop();
    process.exit(code);
  };
  pages.on("exit", (code) => void stop(code ?? 1));
  worker.onGivenUp(() => void stop(1));
  process.on("SIGINT", () => void stop(0));
  process.on("SIGTERM", () => void stop(0));
}

async function generate(): Promise<void> {
  await runBinary("prisma", ["generate"], { PRISMA_SCHEMA_ENGINE_BINARY: "/bin/true", CHECKPOINT_DISABLE: "1" });
}

async function untilAnswers(url: string): Promise<void> {
  // The certificate is our own and is asked for by our own process only.
  if (url.startsWith("https:")) process.env.NODE_TLS_REJECT_UNAUTHORIZED = "0";
  const until = Date.now() + 60_000;
  while (Date.now() < until) {
    const answer = await fetch(url).catch(() => null);
    if (answer?.ok) return;
    await new Promise((resolve) => setTimeout(resolve, 150));
  }
  throw new Error(`The pages did not answer at ${url} within a minute. The lines above may say why.`);
}

function greeting(address: string, isHttps: boolean, signIns: string): string {
  const trust = isHttps ? "\nThe certificate is this machine's own: a phone asks once whether to trust it.\n" : "";
  return `\nCagebook is at ${address}\n${trust}\n${signIns.trim()}\n\nFilm, step, measure, ask what comes first, choose one thing, send the homework. Ctrl-C stops everything; nothing is lost.\n`;
}

main(process.argv.slice(2)).catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
