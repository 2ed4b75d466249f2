import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import pg from "pg";
import { afterAll, afterEach, beforeAll, expect, inject, vi } from "vitest";
import { closeDatabase } from "@/lib/platform/database";

// One clone of the template per test file: files cannot see each other's rows.
const name = `clone_${crypto.randomUUID().replaceAll("-", "")}`;
const folder = mkdtempSync(path.join(tmpdir(), "cagebook-test-"));

const withServer = async (work: (client: pg.Client) => Promise<unknown>) => {
  const client = new pg.Client({ connectionString: inject("serverUrl") });
  await client.connect();
  await work(client);
  await client.end();
};

process.env.DATABASE_URL = inject("serverUrl").replace(/\/[^/]*$/, `/${name}`);
process.env.AUTH_SECRET = "a secret for tests only, which is long enough";
process.env.BLOB_DIR = path.join(folder, "blobs");
process.env.MAIL_DIR = path.join(folder, "mail");
process.env.LOG_LEVEL = "silent";
process.env.CLOCK_STARTS_AT = "2026-11-25T15:00:00Z";

const complaints = vi.spyOn(console, "error");

beforeAll(async () => {
  await withServer((client) => client.query(`CREATE DATABASE ${name} TEMPLATE ${inject("templateName")}`));
});

afterEach(() => {
  expect(complaints.mock.calls, "a test may not write to console.error").toEqual([]);
  complaints.mockClear();
});

afterAll(async () => {
  await closeDatabase();
  await withServer((client) => client.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`));
  rmSync(folder, { recursive: true, force: true });
});
