import path from "node:path";
import pg from "pg";
import type { TestProject } from "vitest/node";
import { prepareQueue } from "@/lib/platform/queue";
import { applyMigrations } from "@/lib/start/migrations";
import { createDatabase, startPostgres } from "@/lib/start/postgres";

declare module "vitest" {
  interface ProvidedContext {
    serverUrl: string;
    templateName: string;
  }
}

/** A server of our own and one template database with every migration; each test file clones it. */
export default async function prepare(project: TestProject): Promise<() => Promise<void>> {
  const server = await startPostgres(path.resolve(".data/test-postgres"), "thrown-away");
  const templateName = `template_${process.pid}`;
  await createDatabase(server, templateName);
  await applyMigrations(server.urlOf(templateName), path.resolve("prisma/migrations"));
  await prepareQueue(server.urlOf(templateName));
  project.provide("serverUrl", server.urlOf("postgres"));
  project.provide("templateName", templateName);
  return async () => {
    const client = new pg.Client({ connectionString: server.urlOf("postgres") });
    await client.connect();
    await client.query(`DROP DATABASE IF EXISTS ${templateName} WITH (FORCE)`);
    await client.end();
    await server.stop();
  };
}
