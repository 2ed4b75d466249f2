import { hostileFiles } from "../domains/hostile-files";
import { isClear, meet, type Met } from "../domains/hostile-trial";
import { filmRoom } from "../domains/video-files";

/**
 * All hostile files through the worker's own steps: `npx tsx tests/bench/hostile.ts [seed]`. Prints how each kind was met and the count of every
 * reason; ends badly when one broke, was written elsewhere, took longer than its limit or was refused without a clear sentence.
 */
const LIMIT_MS = 5 * 60_000;
const AT_ONCE = 3;

async function main(): Promise<void> {
  process.env.DATABASE_URL ??= "postgresql://nobody@localhost/none";
  process.env.AUTH_SECRET ??= "a secret for the bench only, long enough for it";
  const seed = Number(process.argv[2] ?? 5);
  const rooms = Array.from({ length: AT_ONCE }, filmRoom);
  const all: Met[] = [];
  let bad = 0;
  try {
    await Promise.all(
      rooms.map(async (room, i) => {
        for (const file of hostileFiles(room, seed).filter((_, at) => at % AT_ONCE === i)) {
          const met = await meet(file, room.folder);
          all.push(met);
          const isSaid = met.outcome === "taken" || isClear(met.sentence);
          if (met.outcome === "broke" || met.strays.length > 0 || met.ms > LIMIT_MS || !isSaid) {
            bad += 1;
            console.log(`BAD ${met.kind}: ${met.outcome} ${met.sentence} ${met.strays.join(" ")} ${met.ms.toFixed(0)} ms`);
          }
          if (all.length % 50 === 0) console.log(`… ${all.length}`);
        }
      }),
    );
  } finally {
    for (const room of rooms) room.remove();
  }
  const slowest = all.reduce((most, met) => (met.ms > most.ms ? met : most));
  console.log(`${all.length} files of ${new Set(all.map(({ kind }) => kind)).size} kinds, seed ${seed}, ${bad} met badly; slowest ${(slowest.ms / 1000).toFixed(1)} s (${slowest.kind})`);
  for (const kind of new Set(all.map((met) => met.kind))) console.log(`  ${kind}: ${countsOf(all.filter((met) => met.kind === kind))}`);
  console.log(`how they were met: ${countsOf(all)}`);
  if (bad > 0 || all.length < 300 || new Set(all.map(({ outcome }) => outcome)).size < 11) process.exitCode = 1;
}

const countsOf = (met: readonly Met[]) => {
  const counts = new Map<string, number>();
  for (const { outcome } of met) counts.set(outcome, (counts.get(outcome) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1]).map(([outcome, count]) => `${outcome} ${count}`).join(", ");
};

void main();
