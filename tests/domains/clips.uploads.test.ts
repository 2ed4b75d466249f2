import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from "node:fs";
import path from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { newId } from "@/lib/core/ids";
import { beginUpload, cancelUpload, dismissUpload } from "@/lib/domains/clips/actions";
import { getSwing, listSwings, listUploads } from "@/lib/domains/clips/queries";
import { database } from "@/lib/platform/database";
import { buildAssignment, buildConsent, buildPlayer, buildUser } from "@/seed/builders/people";
import { askOffset, coachWithPlayer, createBytes, facts, patchBytes, sendFile, signIn, work } from "./clip-story";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

/** What of an upload still lies under the blob folder. */
const leftoversOf = (uploadId: string) => {
  const folder = process.env.BLOB_DIR ?? "";
  return ["incoming", "received"].flatMap((name) => (existsSync(path.join(folder, name)) ? readdirSync(path.join(folder, name)) : [])).filter((name) => name.startsWith(uploadId));
};
const keptFilesOf = (academyId: string) => {
  const folder = path.join(process.env.BLOB_DIR ?? "", academyId);
  return existsSync(folder) ? readdirSync(folder) : [];
};

describe("sending a video", () => {
  test("a good file becomes one swing with one clip, its times, its pictures and a contact heard in the sound", async () => {
    const { coach, playerId, academyId } = await coachWithPlayer();
    const uploadId = await sendFile(coach, playerId, room.crack("crack.mp4", { fps: 120, at: 1 }));
    expect(await listUploads.as(coach, { playerId })).toMatchObject([{ state: "checking" }]);
    expect(await work(uploadId)).toEqual({ is: "done" });

    const [upload] = await listUploads.as(coach, { playerId });
    expect(upload).toMatchObject({ state: "ready", wasKnown: false, refusal: null });
    const swing = await getSwing.as(coach, { swingId: upload?.swingId ?? "" });
    expect(swing).toMatchObject({ playerId, side: "right", isShown: true, ageYears: 12, filmedOn: "2026-11-25" });
    const clip = swing.clips[0]?.clip;
    expect(clip).toMatchObject({ widthPx: 320, heightPx: 240, realSecondsPerFileSecond: 1, timeBasis: "measured", points: [], marks: [] });
    expect(clip?.frameTimes.ticks).toHaveLength(180);
    expect(clip?.events).toMatchObject([{ event: "contact", source: "suggested", frameIndex: 120 }]);
    expect(clip?.events[0]?.sdSeconds).toBeGreaterThan(0);
    expect(readdirSync(path.join(process.env.BLOB_DIR ?? "", academyId, keptFilesOf(academyId)[0] ?? "")).sort()).toEqual(["original", "poster.jpg", "stepping.mp4"]);
    expect(leftoversOf(uploadId)).toEqual([]);
  });

  test("of a machine's pitch the release is heard too, as a suggestion; off a tee the same sound suggests none", async () => {
    const { coach, playerId } = await coachWithPlayer();
    const sound = "0.002*(random(0)-0.5)+if(gte(t,0.5),0.2*exp(-(t-0.5)/0.01)*(2*random(2)-1),0)+if(gte(t,1),0.8*exp(-(t-1)/0.01)*(2*random(1)-1),0)";
    const film = (name: string) =>
      room.make(name, ...room.lavfi("testsrc=size=320x240:rate=120"), ...room.lavfi(`aevalsrc='${sound}':s=48000`), "-t", "1.5", ...room.h264, "-c:a", "aac", "-metadata", `comment=${name}`);
    const eventsOf = async (name: string, task: "machine" | "tee") => {
      await work(await sendFile(coach, playerId, film(name), { task }));
      const clip = await database().clip.findFirstOrThrow({ where: { playerId, swing: { task } }, select: { swingId: true } });
      return (await getSwing.as(coach, { swingId: clip.swingId })).clips[0]?.clip.events;
    };
    expect(await eventsOf("machine.mp4", "machine")).toMatchObject([{ event: "contact", frameIndex: 120 }, { event: "release", source: "suggested", frameIndex: 55, sdSeconds: 0.015 }]);
    expect(await eventsOf("tee.mp4", "tee")).toMatchObject([{ event: "contact", frameIndex: 120 }]);
  });

  test("240 frames a second that play at 30 are kept as an eighth of real time", async () => {
    const { coach, playerId } = await coachWithPlayer();
    await work(await sendFile(coach, playerId, room.plain("slow.mp4", { fps: 30, frames: 40 }), { filmedRate: "240" }));
    const clip = await database().clip.findFirstOrThrow({ where: { playerId } });
    expect(clip).toMatchObject({ realSecondsPerFileSecond: 1 / 8, timeBasis: "stated" });
  });

  test.each<[string, string, () => string]>([
    ["a text file", "text file", () => room.write("notes.mp4", "stay back on it\n".repeat(9))],
    ["a video without frames", "no frames", () => room.frameless("none.mp4")],
    ["four hours", "ten minutes", () => room.make("long.mp4", ...room.lavfi("color=size=16x16:rate=1/60"), "-t", "14400", ...room.h264)],
    ["half a file", "too soon", () => room.write("half.mp4", readFileSync(room.plain("whole.mp4")).subarray(0, 4000))],
    ["an unknown codec", "H.264 or HEVC", () => room.make("prores.mov", ...room.lavfi("testsrc=size=64x64:rate=30"), "-frames:v", "3", "-c:v", "prores_ks")],
  ])("%s is refused with a sentence, leaves no clip and no bytes, and can be put away", async (_what, words, make) => {
    const { coach, playerId, academyId } = await coachWithPlayer();
    const uploadId = await sendFile(coach, playerId, make());
    expect(await work(uploadId)).toEqual({ is: "done" });
    const [row] = await listUploads.as(coach, { playerId });
    expect(row).toMatchObject({ state: "refused", swingId: null });
    expect(row?.refusal).toContain(words);
    expect(row?.refusal).toContain("Nothing of it was kept");
    expect((await listSwings.as(coach, { playerId })).rows).toEqual([]);
    expect(await database().mediaFile.count({ where: { academyId } })).toBe(0);
    expect([...leftoversOf(uploadId), ...keptFilesOf(academyId)]).toEqual([]);
    await dismissUpload.as(coach, { uploadId });
    expect(await listUploads.as(coach, { playerId })).toEqual([]);
  });

  test("an empty file is refused before a byte is sent", async () => {
    const { coach, playerId } = await coachWithPlayer();
    await expect(beginUpload.as(coach, { playerId, ...facts, byteLength: 0 })).rejects.toThrow("The file is empty");
    expect(await database().upload.count({ where: { playerId } })).toBe(0);
  });

  test("without a consent in force nothing is sent, and the sentence says why", async () => {
    const { coach, playerId, consentId } = await coachWithPlayer();
    await database().consent.update({ where: { id: consentId }, data: { withdrawnAt: new Date() } });
    await expect(beginUpload.as(coach, { playerId, ...facts, byteLength: 9 })).rejects.toThrow(/No consent to film Pia .* Nothing was sent/);
  });

  test("a side from which the player does not bat, and a day in the future, are named at their fields", async () => {
    const { coach, playerId } = await coachWithPlayer();
    await expect(beginUpload.as(coach, { playerId, ...facts, side: "left", byteLength: 9 })).rejects.toMatchObject({ fields: { side: expect.stringContaining("left-handed") } });
    await expect(beginUpload.as(coach, { playerId, ...facts, filmedOn: "2026-11-26", byteLength: 9 })).rejects.toMatchObject({ fields: { filmedOn: expect.any(String) } });
  });
});

describe("bytes that stop and go on", () => {
  test("an upload goes on from where it stopped, and the name of the file is nowhere", async () => {
    const { coach, playerId } = await coachWithPlayer();
    const bytes = new Uint8Array(readFileSync(room.plain("resumed.mp4")));
    const begun = await beginUpload.as(coach, { playerId, ...facts, byteLength: bytes.length });
    const { uploadId } = begun.data as { uploadId: string };
    await createBytes(coach, uploadId, bytes.length);
    await patchBytes(coach, uploadId, 0, bytes.slice(0, 1000));
    expect((await askOffset(coach, uploadId)).headers.get("upload-offset")).toBe("1000");
    expect((await patchBytes(coach, uploadId, 500, bytes.slice(500))).status).toBe(409);
    expect((await patchBytes(coach, uploadId, 1000, bytes.slice(1000))).status).toBe(204);
    expect(await work(uploadId)).toEqual({ is: "done" });
    const kept = await database().mediaFile.findFirstOrThrow({ where: { clips: { some: { playerId } } } });
    expect(readFileSync(path.join(process.env.BLOB_DIR ?? "", kept.originalKey))).toEqual(Buffer.from(bytes));
  });

  test("a browser that lost the line before the last answer hears that all is there, and of a sending that was taken back that it has ended", async () => {
    const { coach, playerId } = await coachWithPlayer();
    const uploadId = await sendFile(coach, playerId, room.plain("heard-late.mp4", { seed: 7 }));
    for (const asked of [await askOffset(coach, uploadId), await work(uploadId).then(() => askOffset(coach, uploadId))]) {
      expect(asked.status).toBe(200);
      expect(asked.headers.get("upload-offset")).toBe(asked.headers.get("upload-length"));
    }
    const begun = await beginUpload.as(coach, { playerId, ...facts, byteLength: 9 });
    const { uploadId: dropped } = begun.data as { uploadId: string };
    await cancelUpload.as(coach, { uploadId: dropped });
    expect((await askOffset(coach, dropped)).status).toBe(404);
    expect((await createBytes(coach, dropped, 9)).status).toBe(410);
  });

  test("another length than was said, more bytes than were said and a sending that has ended are refused", async () => {
    const { coach, playerId } = await coachWithPlayer();
    const file = room.plain("lengths.mp4");
    const { uploadId } = (await beginUpload.as(coach, { playerId, ...facts, byteLength: 2000 })).data as { uploadId: string };
    expect((await createBytes(coach, uploadId, 1999)).status).toBe(409);
    expect((await createBytes(coach, uploadId, 2001)).status).toBe(413);
    await createBytes(coach, uploadId, 2000);
    expect((await patchBytes(coach, uploadId, 0, new Uint8Array(2001))).status).toBeGreaterThanOrEqual(400);
    const done = await sendFile(coach, playerId, file);
    expect((await patchBytes(coach, done, 0, new Uint8Array(5))).status).toBe(410);
  });

  test("a colleague who also coaches the player cannot send into somebody else's upload", async () => {
    const { coach, playerId, academyId } = await coachWithPlayer();
    const { id: userId } = await buildUser({ academyId, roles: ["coach"] });
    await buildAssignment({ academyId, playerId, userId });
    const { uploadId } = (await beginUpload.as(coach, { playerId, ...facts, byteLength: 2000 })).data as { uploadId: string };
    expect((await createBytes(await signIn(academyId, userId), uploadId, 2000)).status).toBe(404);
  });

  test("bytes that are not those whose hash was said are refused", async () => {
    const { coach, playerId } = await coachWithPlayer();
    const bytes = new Uint8Array(readFileSync(room.plain("hash.mp4")));
    const { uploadId } = (await beginUpload.as(coach, { playerId, ...facts, byteLength: bytes.length, contentHash: "0".repeat(64) })).data as { uploadId: string };
    await createBytes(coach, uploadId, bytes.length);
    await patchBytes(coach, uploadId, 0, bytes);
    await work(uploadId);
    expect((await listUploads.as(coach, { playerId }))[0]?.refusal).toContain("changed on its way");
  });

  test("a cancelled upload leaves nothing, also when all bytes had arrived", async () => {
    const { coach, playerId } = await coachWithPlayer();
    const uploadId = await sendFile(coach, playerId, room.plain("cancelled.mp4"));
    await cancelUpload.as(coach, { uploadId });
    expect(leftoversOf(uploadId)).toEqual([]);
    expect(await work(uploadId)).toMatchObject({ is: "skipped" });
    expect(await listUploads.as(coach, { playerId })).toEqual([]);
    expect(await database().clip.count({ where: { playerId } })).toBe(0);
  });
});

describe("the same bytes again", () => {
  test("for the same player are the clip that is there, and success", async () => {
    const { coach, playerId } = await coachWithPlayer();
    const file = room.plain("twice.mp4");
    await work(await sendFile(coach, playerId, file));
    const again = await sendFile(coach, playerId, file);
    expect(await work(again)).toEqual({ is: "done" });
    expect(await database().upload.findUnique({ where: { id: again } })).toMatchObject({ state: "ready", wasKnown: true });
    expect(await database().clip.count({ where: { playerId } })).toBe(1);
  });

  test("need not be sent at all when their hash is known", async () => {
    const { coach, playerId } = await coachWithPlayer();
    await work(await sendFile(coach, playerId, room.plain("known.mp4")));
    const { contentHash, byteLength } = await database().mediaFile.findFirstOrThrow({ where: { clips: { some: { playerId } } } });
    const begun = await beginUpload.as(coach, { playerId, ...facts, byteLength: Number(byteLength), contentHash });
    expect(begun.data).toMatchObject({ swingId: (await listSwings.as(coach, { playerId })).rows[0]?.id });
  });

  test("for another player are another clip on the same file", async () => {
    const { coach, playerId, academyId, userId } = await coachWithPlayer();
    const other = await buildPlayer({ academyId, givenName: "Otto" });
    await buildAssignment({ academyId, playerId: other.id, userId });
    await buildConsent({ academyId, playerId: other.id, recordedById: userId });
    const coachOfBoth = await signIn(academyId, userId);
    const file = room.crack("shared.mp4");
    await work(await sendFile(coach, playerId, file));
    await work(await sendFile(coachOfBoth, other.id, file));
    const clips = await database().clip.findMany({ where: { academyId }, include: { events: true } });
    expect(clips.map((clip) => clip.playerId).sort()).toEqual([playerId, other.id].sort());
    expect(new Set(clips.map((clip) => clip.fileId)).size).toBe(1);
    expect(clips.map((clip) => clip.events.length)).toEqual([1, 1]);
  });

  test("sent twice at once and looked at side by side make one clip", async () => {
    const { coach, playerId } = await coachWithPlayer();
    const file = room.plain("race.mp4");
    const [one, two] = [await sendFile(coach, playerId, file), await sendFile(coach, playerId, file)];
    await Promise.all([work(one), work(two)]);
    const uploads = await database().upload.findMany({ where: { playerId } });
    expect(uploads.map((upload) => upload.state)).toEqual(["ready", "ready"]);
    expect(uploads.map((upload) => upload.wasKnown).sort()).toEqual([false, true]);
    expect(await database().clip.count({ where: { playerId } })).toBe(1);
  });

  test("two unlike files are two swings", async () => {
    const { coach, playerId } = await coachWithPlayer();
    await work(await sendFile(coach, playerId, room.plain("one.mp4", { seed: 1 })));
    await work(await sendFile(coach, playerId, room.plain("two.mov", { seed: 2, fps: 120, size: "240x320" })));
    expect((await listSwings.as(coach, { playerId })).rows).toHaveLength(2);
  });
});

describe("a worker that dies", () => {
  test("after it had run: running again changes nothing", async () => {
    const { coach, playerId } = await coachWithPlayer();
    const uploadId = await sendFile(coach, playerId, room.plain("rerun.mp4"));
    await work(uploadId);
    expect(await work(uploadId)).toMatchObject({ is: "skipped" });
    expect(await database().clip.count({ where: { playerId } })).toBe(1);
  });

  test("after all was made and before it was entered: nothing stands in a list, and running again makes it whole", async () => {
    const { coach, playerId, academyId } = await coachWithPlayer();
    const uploadId = await sendFile(coach, playerId, room.plain("killed.mp4", { seed: 3 }));
    await database().$executeRaw`ALTER TABLE "Clip" ADD CONSTRAINT "no_clip_now" CHECK (false) NOT VALID`;
    await expect(work(uploadId)).rejects.toThrow();
    expect((await listSwings.as(coach, { playerId })).rows).toEqual([]);
    expect((await listUploads.as(coach, { playerId }))[0]?.state).toBe("checking");
    for (const count of [database().mediaFile.count({ where: { academyId } }), database().swing.count({ where: { academyId } })]) expect(await count).toBe(0);
    await database().$executeRaw`ALTER TABLE "Clip" DROP CONSTRAINT "no_clip_now"`;
    expect(await work(uploadId)).toEqual({ is: "done" });
    expect((await listSwings.as(coach, { playerId })).rows).toHaveLength(1);
    expect(leftoversOf(uploadId)).toEqual([]);
  });

  test("an upload that is gone is skipped", async () => {
    expect(await work(newId())).toMatchObject({ is: "skipped" });
  });

  test("trouble on our side is tried again, and at last said in a sentence that owns it", async () => {
    const { coach, playerId } = await coachWithPlayer();
    const uploadId = await sendFile(coach, playerId, room.plain("trouble.mp4"));
    // A folder stands where the worker wants to put its copy.
    const contentHash = hashOf(room.at("trouble.mp4"));
    const blocked = path.join(process.env.BLOB_DIR ?? "", coach.academyId, contentHash, "stepping.mp4", "x");
    mkdirSync(blocked, { recursive: true });
    await expect(work(uploadId)).rejects.toThrow();
    expect((await listUploads.as(coach, { playerId }))[0]?.state).toBe("checking");
    rmSync(path.dirname(blocked), { recursive: true });
    expect(await work(uploadId)).toEqual({ is: "done" });
    expect((await listUploads.as(coach, { playerId }))[0]?.state).toBe("ready");

    const second = await sendFile(coach, playerId, room.plain("trouble2.mp4", { seed: 5 }));
    const other = hashOf(room.at("trouble2.mp4"));
    mkdirSync(path.join(process.env.BLOB_DIR ?? "", coach.academyId, other, "stepping.mp4", "x"), { recursive: true });
    expect(await work(second, true)).toEqual({ is: "done" });
    expect((await listUploads.as(coach, { playerId }))[0]?.refusal).toMatch(/our side.*Nothing of it was kept/);
  });
});

function hashOf(file: string): string {
  return createHash("sha256").update(readFileSync(file)).digest("hex");
}
