import { afterAll, expect, test } from "vitest";
import { killTrial } from "./kill-story";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

test("the house is killed at seeded bytes and moments, and every film is there once, byte for byte (the bench does so a hundred times)", async () => {
  const films = [room.crack("one.mp4"), room.plain("two.mp4", { seed: 1, size: "640x480" })];
  const after = await killTrial({ films, serverKills: 2, workerKills: 1, seed: 7 });
  expect(after.states).toEqual(["ready", "ready"]);
  expect(after.hashesOfKept).toEqual(after.hashesOfSent);
  expect(after).toMatchObject({ clips: 2, leftovers: [], unfinishedJobs: 0 });
}, 600_000);
