import { afterAll, expect, test } from "vitest";
import { hostileFiles } from "./hostile-files";
import { isClear, meet, type Met } from "./hostile-trial";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

/** The bench meets all of them; here every ninth, which takes seconds. */
const EVERY = 9;
const LIMIT_MS = 60_000;

test("every ninth of the hostile files is met: nothing breaks, nothing hangs, nothing is written elsewhere, each refusal is a clear sentence", async () => {
  const files = hostileFiles(room, 5);
  expect(files.length).toBeGreaterThanOrEqual(300);
  expect(new Set(files.map(({ kind }) => kind)).size).toBeGreaterThanOrEqual(25);
  const met: Met[] = [];
  for (const file of files.filter((_, i) => i % EVERY === 0)) met.push(await meet(file, room.folder));
  expect(met.filter(({ outcome, ms, strays }) => outcome === "broke" || ms > LIMIT_MS || strays.length > 0)).toEqual([]);
  expect(met.filter(({ outcome, sentence }) => outcome !== "taken" && !isClear(sentence))).toEqual([]);
  expect(new Set(met.map(({ outcome }) => outcome)).size).toBeGreaterThanOrEqual(6);
}, 120_000);
