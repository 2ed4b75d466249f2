import { mkdirSync } from "node:fs";
import path from "node:path";
import { loadImage } from "@napi-rs/canvas";
import { afterAll, beforeAll, expect, test } from "vitest";
import { buildConsent, buildGuardianship, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { findActor } from "@/lib/access/session";
import { newId, type Id } from "@/lib/core/ids";
import { eraseClip } from "@/lib/domains/clips/erasing/actions";
import { withdrawConsent } from "@/lib/domains/roster/actions";
import { arrangeChapters, keepTake, sendWalkthrough } from "@/lib/domains/walkthroughs/actions";
import { makeWantedOpening } from "@/lib/domains/walkthroughs/jobs";
import { getSentWalkthrough, getWalkthrough } from "@/lib/domains/walkthroughs/queries";
import { database } from "@/lib/platform/database";
import { buildClip, coachWithPlayer, putBlob } from "./clip-story";
import { buildModel } from "./model-story";
import { filmRoom } from "./video-files";
import { listOver } from "./walkthrough-story";

const room = filmRoom();
afterAll(room.remove);

let story: Awaited<ReturnType<typeof coachWithPlayer>>;
let guardian: Awaited<ReturnType<typeof findActor>>;
beforeAll(async () => {
  story = await coachWithPlayer();
  const { id: userId } = await buildUser({ academyId: story.academyId, roles: ["guardian"] });
  await buildGuardianship({ academyId: story.academyId, playerId: story.playerId, userId });
  guardian = await findActor((await buildSession({ academyId: story.academyId, userId, activeRole: "guardian" })).id);
});

/** A player's clip with a copy that can be opened. */
async function filmedClip(playerId = story.playerId) {
  const clip = await buildClip({ ...story, playerId });
  mkdirSync(path.join(process.env.BLOB_DIR ?? "", path.dirname(clip.keys.stepping)), { recursive: true });
  putBlob(clip.keys.stepping, room.plain("copy-480.mp4", { frames: 480, size: "320x180", fps: 240 }));
  return clip;
}

/** A walkthrough that was sent, and whose small stills were made. */
async function sent(clipIds: readonly Id[]): Promise<Id> {
  const walkthroughId = newId();
  const happenings = [{ at: 4000, kind: "show" as const, frames: clipIds.map(() => 200) }];
  await keepTake.as(story.coach, { playerId: story.playerId, side: "right", walkthroughId, takeId: newId(), list: listOver(clipIds, { happenings }), hasVoice: false, chapterId: null });
  await sendWalkthrough.as(story.coach, { walkthroughId });
  return walkthroughId;
}
const make = (walkthroughId: Id) => makeWantedOpening.perform({ walkthroughId }, false);
const asked = async (walkthroughId: Id) => (await database().$queryRaw<{ key: string }[]>`SELECT key FROM graphile_worker.jobs WHERE key = ${`opening ${walkthroughId}`}`).length;
const ofFamily = async (walkthroughId: Id) => (await getSentWalkthrough.as(guardian, { walkthroughId })).opening;
const ofCoach = async (walkthroughId: Id) => (await getWalkthrough.as(story.coach, { walkthroughId })).opening;

test("the frame with which each clip begins comes with the page, small, and counts as looked at", async () => {
  const [one, two] = [await filmedClip(), await filmedClip()];
  const walkthroughId = await sent([one.clipId, two.clipId]);
  expect(await asked(walkthroughId)).toBe(1);
  expect(await ofFamily(walkthroughId)).toEqual({});
  expect(await make(walkthroughId)).toEqual({ is: "done" });
  const opening = await ofFamily(walkthroughId);
  expect(Object.keys(opening).sort()).toEqual([one.clipId, two.clipId].sort());
  for (const address of Object.values(opening)) {
    expect(address).toMatch(/^data:image\/webp;base64,/);
    expect(address.length).toBeLessThan(25_000);
    expect(await loadImage(Buffer.from(address.split(",")[1] ?? "", "base64"))).toMatchObject({ width: 320, height: 180 });
  }
  const sessionId = guardian.kind === "person" ? guardian.sessionId : "";
  expect(await database().mediaRead.count({ where: { sessionId, clipId: { in: [one.clipId, two.clipId] } } })).toBe(2);

  // Trimmed so that it begins with other frames, those are asked for.
  const [chapter] = (await getWalkthrough.as(story.coach, { walkthroughId })).chapters;
  await database().$executeRaw`SELECT graphile_worker.complete_jobs(ARRAY(SELECT id FROM graphile_worker.jobs WHERE key = ${`opening ${walkthroughId}`}))`;
  await arrangeChapters.as(story.coach, { walkthroughId, title: "Shorter", chapters: [{ id: chapter?.id ?? "", title: "From there", fromMs: 5000, toMs: 9000 }] });
  expect(await asked(walkthroughId)).toBe(1);
  expect(await ofFamily(walkthroughId)).toEqual({});
  await make(walkthroughId);
  expect(Object.values(await ofFamily(walkthroughId))).toHaveLength(2);
  expect(await ofFamily(walkthroughId)).not.toEqual(opening);
}, 120_000);

test("a model's picture comes to coaches only, one that was removed to nobody, and none at all without a consent", async () => {
  const hitter = await buildPlayer({ academyId: story.academyId });
  const [own, model] = [await filmedClip(), await filmedClip(hitter.id)];
  for (const use of ["lesson", "staff-training"] as const) await buildConsent({ academyId: story.academyId, playerId: hitter.id, recordedById: story.userId, use });
  await buildModel({ academyId: story.academyId, userId: story.userId, playerId: hitter.id, swingId: model.swingId });
  const walkthroughId = await sent([own.clipId, model.clipId]);
  await make(walkthroughId);
  expect(Object.keys(await ofCoach(walkthroughId)).sort()).toEqual([own.clipId, model.clipId].sort());
  expect(Object.keys(await ofFamily(walkthroughId))).toEqual([own.clipId]);
  await database().modelSwing.updateMany({ where: { swingId: model.swingId }, data: { withdrawnAt: new Date("2026-11-25T10:00:00Z"), withdrawnById: story.userId } });
  expect(Object.keys(await ofCoach(walkthroughId))).toEqual([own.clipId]);

  const other = await filmedClip();
  const second = await sent([other.clipId]);
  await make(second);
  expect(Object.keys(await ofFamily(second))).toEqual([other.clipId]);
  await eraseClip.as(story.coach, { clipId: other.clipId });
  expect(await ofFamily(second)).toEqual({});

  await withdrawConsent.as(guardian, { playerId: story.playerId, use: "lesson" });
  expect(await ofFamily(walkthroughId)).toEqual({});
  expect(await ofCoach(walkthroughId)).toEqual({});
  // Nothing is made either while none is in force, and a walkthrough that is gone asks for nothing.
  expect(await make(walkthroughId)).toEqual({ is: "done" });
  expect(await make(newId())).toMatchObject({ is: "skipped" });
}, 120_000);
