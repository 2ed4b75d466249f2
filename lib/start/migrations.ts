import { createHash, randomUUID } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import path from "node:path";
import pg from "pg";

// The key that Prisma's own command line takes, so that the two never run at once.
const MIGRATION_LOCK = 72707369;

/**
 * Applies what is new in prisma/migrations, in order of name, and keeps the books as Prisma does, so that its command
 * line agrees ("migrate status"). @returns the names applied now
 * @throws Error when a migration that was applied has been changed since, or when one fails (it is rolled back)
 */
export async function applyMigrations(databaseUrl: string, folder: string): Promise<string[]> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const applied: string[] = [];
  try {
    await client.query("SELECT pg_advisory_lock($1)", [MIGRATION_LOCK]);
    await client.query(`CREATE TABLE IF NOT EXISTS _prisma_migrations (
      id varchar(36) PRIMARY KEY, checksum varchar(64) NOT NULL, finished_at timestamptz, migration_name varchar(255) NOT NULL,
      logs text, rolled_back_at timestamptz, started_at timestamptz NOT NULL DEFAULT now(), applied_steps_count integer NOT NULL DEFAULT 0)`);
    const known = await client.query<{ migration_name: string; checksum: string }>(
      "SELECT migration_name, checksum FROM _prisma_migrations WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL",
    );
    const checksums = new Map(known.rows.map((row) => [row.migration_name, row.checksum]));
    const names = (await readdir(folder, { withFileTypes: true })).filter((entry) => entry.isDirectory()).map((entry) => entry.name);
    for (const name of names.sort()) {
      const sql = await readFile(path.join(folder, name, "migration.sql"), "utf8");
      const checksum = createHash("sha256").update(sql).digest("hex");
      const before = checksums.get(name);
      if (before === checksum) continue;
      if (before) throw new Error(`The migration ${name} was applied to this database in another wording. Restore the file as it was.`);
      await applyOne(client, name, sql, checksum);
      applied.push(name);
    }
  } finally {
    await client.end();
  }
  return applied;
}

async function applyOne(client: pg.Client, name: string, sql: string, checksum: string): Promise<void> {
  await client.query("BEGIN");
  try {
    await client.query(sql);
    await client.query(
      "INSERT INTO _prisma_migrations (id, checksum, migration_name, started_at, finished_at, applied_steps_count) VALUES ($1, $2, $3, now(), now(), 1)",
      [randomUUID(), checksum, name],
    );
    await client.query("COMMIT");
  } catch (error) {
    await client.query("ROLLBACK");
    throw new Error(`The migration ${name} failed and was rolled back: ${error instanceof Error ? error.message : String(error)}`);
  }
}
