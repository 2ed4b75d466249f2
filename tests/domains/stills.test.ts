import { existsSync, mkdirSync, readdirSync, rmSync, statSync } from "node:fs";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { setEvent } from "@/lib/domains/clips/actions";
import { newId } from "@/lib/core/ids";
import { cutStillsOfSwing } from "@/lib/domains/clips/stills/jobs";
import { showCut } from "@/lib/domains/clips/stills/routes";
import { getCheckpointSheet } from "@/lib/domains/observations/sheet/queries";
import { database } from "@/lib/platform/database";
import { buildClip, coachWithPlayer, putBlob } from "./clip-story";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

let story: Awaited<ReturnType<typeof coachWithPlayer>>;
let film: string;
beforeAll(async () => {
  story = await coachWithPlayer();
  film = room.plain("copy.mp4", { frames: 60, size: "640x360" });
});

const folderOf = (clip: { keys: { stepping: string } }) => path.join(process.env.BLOB_DIR ?? "", path.dirname(clip.keys.stepping));

async function filmed(hasCopy = true) {
  const clip = await buildClip({ ...story, fps: 60, frames: 60 });
  mkdirSync(folderOf(clip), { recursive: true });
  if (hasCopy) putBlob(clip.keys.stepping, film);
  const set = (event: "contact" | "plant" | "finish", frameIndex: number) => setEvent.as(story.coach, { clipId: clip.clipId, event, frameIndex });
  return { ...clip, set, cut: () => cutStillsOfSwing.perform({ swingId: clip.swingId }, false) };
}

const cutsOf = (clip: { keys: { stepping: string } }) => {
  const folder = path.join(folderOf(clip), "cuts");
  return existsSync(folder) ? readdirSync(folder).flatMap((window) => readdirSync(path.join(folder, window)).map((name) => `${window}/${name}`)).sort() : [];
};
const keptFrames = async (swingId: string) => {
  const sheet = await getCheckpointSheet.as(story.coach, { swingId, withIds: [] });
  return sheet.isShown ? sheet.rows[0]?.picture.keptFrames : null;
};

describe("the stills of a swing", () => {
  test("are cut at the frames of its events by one window, and the sheet knows of them", async () => {
    const clip = await filmed();
    await clip.set("plant", 20);
    await clip.set("contact", 40);
    expect(await keptFrames(clip.swingId)).toEqual([]);
    expect(await clip.cut()).toEqual({ is: "done" });
    expect(cutsOf(clip)).toEqual(["369-0-543-720/20.jpg", "369-0-543-720/40.jpg"]);
    expect(await keptFrames(clip.swingId)).toEqual([20, 40]);
  });

  test("cut again cost nothing, and an event that moves needs one more", async () => {
    const clip = await filmed();
    await clip.set("contact", 40);
    await clip.cut();
    const still = path.join(folderOf(clip), "cuts", cutsOf(clip)[0] ?? "");
    const before = statSync(still).mtimeMs;
    await clip.cut();
    expect(statSync(still).mtimeMs).toBe(before);
    await clip.set("contact", 41);
    expect(await keptFrames(clip.swingId)).toEqual([40]);
    await clip.cut();
    expect(await keptFrames(clip.swingId)).toEqual([41]);
  });

  test("points that show where the hitter stands make another window, and the stills of the old one are no longer taken for it", async () => {
    const clip = await filmed();
    await clip.set("contact", 40);
    await clip.cut();
    const points = ["nose", "sh_f", "sh_b", "hip_f", "hip_b", "kn_f", "an_b"].map((point, i) => ({ point, xPx: 1000 + 10 * (i % 2), yPx: 250 + 50 * i }));
    await database().clipPoint.createMany({ data: points.map((it) => ({ ...it, academyId: story.academyId, clipId: clip.clipId, frameIndex: 40, source: "placed" })) });
    expect(await keptFrames(clip.swingId)).toEqual([]);
    await clip.cut();
    expect(await keptFrames(clip.swingId)).toEqual([40]);
    expect(cutsOf(clip)).toEqual([expect.stringMatching(/^(?!369-0-543-720)[\d-]+\/40\.jpg$/)]);
  });

  test("of an earlier window or of frames that are no event any more are removed, unless another clip of the same film needs them", async () => {
    const clip = await filmed();
    await clip.set("contact", 40);
    await clip.set("plant", 20);
    await clip.cut();
    const twin = await database().clip.findUniqueOrThrow({ where: { id: clip.clipId } });
    const swing = await database().swing.findUniqueOrThrow({ where: { id: clip.swingId } });
    const [swingId, clipId] = [newId(), newId()];
    await database().swing.create({ data: { ...swing, id: swingId } });
    await database().clip.create({ data: { ...twin, plateMark: undefined, id: clipId, swingId } });
    await setEvent.as(story.coach, { clipId, event: "contact", frameIndex: 40 });
    await cutStillsOfSwing.perform({ swingId }, false);
    await clip.set("contact", 42);
    await clip.set("plant", 21);
    await clip.cut();
    expect(cutsOf(clip)).toEqual(["369-0-543-720/21.jpg", "369-0-543-720/40.jpg", "369-0-543-720/42.jpg"]);
    await setEvent.as(story.coach, { clipId, event: "contact", frameIndex: 42 });
    await cutStillsOfSwing.perform({ swingId }, false);
    expect(cutsOf(clip)).toEqual(["369-0-543-720/21.jpg", "369-0-543-720/42.jpg"]);
    expect(await keptFrames(clip.swingId)).toEqual([21, 42]);
  }, 90_000);

  test("are not promised where the stepping copy is missing, and nothing fails", async () => {
    const clip = await filmed(false);
    await clip.set("contact", 40);
    expect(await clip.cut()).toEqual({ is: "skipped", because: "no stepping copy of 1 clips" });
    expect(await keptFrames(clip.swingId)).toEqual([]);
    expect(await cutStillsOfSwing.perform({ swingId: "11111111-1111-4111-8111-111111111111" }, false)).toMatchObject({ is: "skipped" });
  });

  test("are ordered once however many events and points change in a row", async () => {
    const clip = await filmed();
    for (let frame = 10; frame < 15; frame++) await clip.set("plant", frame);
    const [row] = await database().$queryRaw<{ count: number }[]>`SELECT count(*)::int AS count FROM graphile_worker.jobs WHERE key = ${`stills ${clip.swingId}`}`;
    expect(row?.count).toBe(1);
  });
});

describe("a cut still", () => {
  test("is sent to whoever may watch the clip, may be shown again for a quarter hour, and the look is noted", async () => {
    const clip = await filmed();
    await clip.set("contact", 40);
    await clip.cut();
    const ask = (frameIndex: string, window = "369-0-543-720", headers: Record<string, string> = {}) =>
      showCut.as(story.coach, new Request("http://cage.test/x", { headers }), { clipId: clip.clipId, window, frameIndex });
    const answer = await ask("40");
    expect([answer.status, answer.headers.get("content-type"), answer.headers.get("cache-control")]).toEqual([200, "image/jpeg", "private, max-age=900"]);
    expect((await ask("40", undefined, { "if-none-match": answer.headers.get("etag") ?? "" })).status).toBe(304);
    expect(await database().mediaRead.count({ where: { clipId: clip.clipId } })).toBe(1);
    for (const [frame, window] of [["41", "369-0-543-720"], ["40", "0-0-10-10"], ["40", "../../original"], ["x", "369-0-543-720"]] as const) expect((await ask(frame, window)).status).toBe(404);
    rmSync(path.join(folderOf(clip), "cuts"), { recursive: true });
    expect((await ask("40")).status).toBe(404);
  });
});
