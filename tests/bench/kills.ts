import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { createDatabase, startPostgres } from "@/lib/start/postgres";
import { applyMigrations } from "@/lib/start/migrations";
import { prepareQueue } from "@/lib/platform/queue";
import { filmRoom } from "../domains/video-files";

/** `npx tsx tests/bench/kills.ts [seed] [at bytes] [at moments]`: the house is killed a hundred times, sixty times while films arrive and forty while they are looked at. */
async function main(): Promise<void> {
  const [seed = 11, serverKills = 60, workerKills = 40] = process.argv.slice(2).map(Number);
  const folder = mkdtempSync(path.join(tmpdir(), "cagebook-kills-"));
  const room = filmRoom();
  const server = await startPostgres(path.resolve(".data/bench-postgres"));
  const name = `kills_${process.pid}`;
  await createDatabase(server, name);
  await applyMigrations(server.urlOf(name), path.resolve("prisma/migrations"));
  await prepareQueue(server.urlOf(name));
  Object.assign(process.env, { DATABASE_URL: server.urlOf(name), BLOB_DIR: path.join(folder, "blobs"), MAIL_DIR: path.join(folder, "mail"), AUTH_SECRET: "a secret for the bench only, long enough for it", CLOCK_STARTS_AT: "2026-11-25T15:00:00Z" });
  try {
    const { killTrial } = await import("../domains/kill-story");
    const films = Array.from({ length: Math.min(10, serverKills) }, (_, i) => (i % 2 ? room.crack(`film-${i}.mp4`, { seconds: 1.2 + i / 10 }) : room.plain(`film-${i}.mp4`, { seed: i, frames: 60 + 10 * i, size: "640x480" })));
    const after = await killTrial({ films, serverKills, workerKills, seed });
    console.log(`seed ${seed}: ${after.serverKills} kills at seeded bytes, ${after.workerKills} at seeded moments of ${films.length} films`);
    console.log(`states ${[...new Set(after.states)].join(", ")} of ${after.states.length}; clips ${after.clips}; hashes ${after.hashesOfKept.join() === after.hashesOfSent.join() ? "equal" : "DIFFERENT"}; left over ${after.leftovers.length}; jobs ${after.unfinishedJobs}`);
    const isWhole = after.states.every((state) => state === "ready") && after.clips === films.length && after.hashesOfKept.join() === after.hashesOfSent.join() && after.leftovers.length === 0 && after.unfinishedJobs === 0;
    if (!isWhole) process.exitCode = 1;
  } finally {
    const { closeDatabase } = await import("@/lib/platform/database");
    await closeDatabase();
    await server.stop();
    room.remove();
    rmSync(folder, { recursive: true, force: true });
  }
}

void main();
