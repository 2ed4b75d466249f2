import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { afterAll, describe, expect, test, vi } from "vitest";
import type { Person } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { fileSecondsOf } from "@/lib/core/frame-times";
import type { Id } from "@/lib/core/ids";
import { cutClip } from "@/lib/domains/clips/cutting/actions";
import { findSwingsOfFilm } from "@/lib/domains/clips/cutting/jobs";
import { getFilmToCut } from "@/lib/domains/clips/cutting/queries";
import { addMark, placePoint, setEvent } from "@/lib/domains/clips/actions";
import { getSwing, listSwings, listUploads } from "@/lib/domains/clips/queries";
import { showPoster, showStill, streamSteppingCopy } from "@/lib/domains/clips/routes";
import { database } from "@/lib/platform/database";
import { buildAssignment, buildConsent, buildGuardianship, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { sendFile, work } from "./clip-story";
import { filmRoom } from "./video-files";

// Every test sends a film, has it looked through and cuts it.
vi.setConfig({ testTimeout: 120_000 });
const room = filmRoom();
afterAll(room.remove);

const FPS = 30;
const SWINGS = [2.5, 6.5];

/** Nine seconds of a cage: frame by frame its index as ten bits in a strip below, a bat that flies twice, its crack each time. */
function twoSwingFilm(): string {
  const crack = SWINGS.map((at, i) => `if(gte(t,${at}),0.8*exp(-(t-${at})/0.01)*(2*random(${i + 1})-1),0)`).join("+");
  const fly = SWINGS.map((at) => `if(between(t,${at}-0.2,${at}+0.15),(t-${at}+0.2)*350,0)`).join("+");
  return room.make(
    "cage.mp4", ...room.lavfi(`color=0x305030:size=160x100:rate=${FPS}:duration=9`), ...room.lavfi(`color=white:size=30x60:rate=${FPS}:duration=9`),
    ...room.lavfi(`color=size=160x20:rate=${FPS}:duration=9,geq=lum='if(mod(floor(N/pow(2,floor(X/16))),2),235,16)':cb=128:cr=128`), ...room.lavfi(`aevalsrc='0.002*(random(0)-0.5)+${crack}':s=48000`),
    "-filter_complex", `[0][1]overlay=x='${fly}':y=20[cage];[cage][2]vstack[v]`, "-map", "[v]", "-map", "3:a", "-t", "9", ...room.h264, "-c:a", "aac",
  );
}
const cage = twoSwingFilm();
/** The same film as another file: other bytes beside the same pictures. */
const copyOfCage = (name: string) => room.make(name, "-i", cage, "-c", "copy", "-metadata", `comment=${name}`);
/** The index that a picture of that film shows. */
const indexShown = (picture: string) =>
  execFileSync("ffmpeg", ["-v", "error", "-i", picture, "-vf", "crop=iw:ih/6:0:ih*5/6,scale=10:1:flags=area,format=gray", "-frames:v", "1", "-f", "rawvideo", "-"]).reduce((sum, grey, bit) => sum + (grey > 128 ? 2 ** bit : 0), 0);

async function story() {
  const { id: pia, academyId, locationId } = await buildPlayer({ givenName: "Pia", bats: "right" });
  const { id: ned } = await buildPlayer({ academyId, locationId, givenName: "Ned", bats: "left" });
  const [user, guardian] = [await buildUser({ academyId, roles: ["coach"] }), await buildUser({ academyId, roles: ["guardian"] })];
  for (const playerId of [pia, ned]) {
    await buildAssignment({ academyId, playerId, userId: user.id });
    await buildConsent({ academyId, playerId, recordedById: user.id });
  }
  await buildGuardianship({ academyId, playerId: pia, userId: guardian.id });
  const sign = async (userId: Id, activeRole: "coach" | "guardian") => (await findActor((await buildSession({ academyId, userId, activeRole })).id)) as Person;
  return { academyId, pia, ned, coach: await sign(user.id, "coach"), guardian: await sign(guardian.id, "guardian") };
}

/** The film, sent for Pia and looked through. */
async function sentFilm(name: string) {
  const cast = await story();
  const uploadId = await sendFile(cast.coach, cast.pia, copyOfCage(name));
  expect(await work(uploadId)).toEqual({ is: "done" });
  const clip = await database().clip.findFirstOrThrow({ where: { playerId: cast.pia } });
  expect(await findSwingsOfFilm.perform({ academyId: cast.academyId, fileId: clip.fileId }, false)).toEqual({ is: "done" });
  return { ...cast, uploadId, clip, film: await getFilmToCut.as(cast.coach, { clipId: clip.id }) };
}
const request = () => new Request("http://cage.test/");
async function bytesOf(answer: Response, name: string): Promise<string> {
  expect(answer.status).toBe(200);
  writeFileSync(room.at(name), new Uint8Array(await answer.arrayBuffer()));
  return room.at(name);
}

describe("a film with two swings of two players", () => {
  test("is offered as two cuts at the cracks, and becomes two swings that show nothing of each other", async () => {
    const { coach, guardian, pia, ned, uploadId, clip, film } = await sentFilm("two.mp4");
    expect(film.offered).toHaveLength(2);
    film.offered.forEach((cut, i) => {
      expect(cut.firstFrame % 8).toBe(0);
      expect(Math.abs((cut.contactFrame ?? 0) - (SWINGS[i] ?? 0) * FPS)).toBeLessThanOrEqual(1);
    });
    const cuts = film.offered.map((cut, i) => ({ ...cut, playerId: i === 0 ? pia : ned }));
    const { data } = await cutClip.as(coach, { clipId: clip.id, cuts });
    expect(data).toMatchObject({ isWholeKept: false });
    expect(await database().clip.count({ where: { id: clip.id } })).toBe(0);
    expect((await listSwings.as(coach, { playerId: ned })).rows).toMatchObject([{ side: "left" }]);
    const [row] = (await listSwings.as(coach, { playerId: pia })).rows;
    expect((await listUploads.as(coach, { playerId: pia })).find((it) => it.id === uploadId)?.swingId).toBe(row?.id);

    const [cut] = film.offered;
    const own = (await getSwing.as(coach, { swingId: row?.id ?? "" })).clips[0]?.clip;
    if (!cut || !own) throw new Error("no cut");
    const count = cut.lastFrame - cut.firstFrame + 1;
    expect(own.frameTimes.ticks).toEqual(film.frameTimes.ticks.slice(cut.firstFrame, cut.lastFrame + 1));
    expect(own.events).toMatchObject([{ event: "contact", source: "suggested", frameIndex: (cut.contactFrame ?? 0) - cut.firstFrame }]);
    // The family's phone gets exactly this stretch, frame for frame, and the poster is one of its frames.
    const copy = await bytesOf(await streamSteppingCopy.as(guardian, request(), { clipId: own.id }), "own.mp4");
    const times = execFileSync("ffprobe", ["-v", "error", "-select_streams", "v:0", "-show_entries", "packet=pts_time", "-of", "csv=p=0", copy], { encoding: "utf8" }).trim().split("\n").map(Number).sort((a, b) => a - b);
    expect(times).toHaveLength(count);
    times.forEach((time, i) => expect(Math.abs(time - (times[0] ?? 0) - i / FPS)).toBeLessThan(0.5 / FPS));
    expect(execFileSync("ffprobe", ["-v", "error", "-show_entries", "stream=codec_type", "-of", "csv=p=0", copy], { encoding: "utf8" }).trim()).toBe("video");
    for (const frameIndex of [0, 37, count - 1]) {
      expect(indexShown(await bytesOf(await showStill.as(guardian, request(), { clipId: own.id, frameIndex: String(frameIndex) }), "still.jpg"))).toBe(cut.firstFrame + frameIndex);
    }
    expect((await showStill.as(guardian, request(), { clipId: own.id, frameIndex: String(count) })).status).toBe(404);
    expect(indexShown(await bytesOf(await showPoster.as(guardian, request(), { clipId: own.id }), "poster.jpg"))).toBe(cut.contactFrame);
  });

  test("counts its own frames in everything that is placed on it", async () => {
    const { coach, pia, clip, film } = await sentFilm("own-frames.mp4");
    const [, cut] = film.offered;
    if (!cut) throw new Error("no cut");
    const { swingIds } = (await cutClip.as(coach, { clipId: clip.id, cuts: [{ ...cut, playerId: pia }] })).data as { swingIds: Id[] };
    const made = await database().clip.findFirstOrThrow({ where: { swingId: swingIds[0] } });
    const last = cut.lastFrame - cut.firstFrame;
    await setEvent.as(coach, { clipId: made.id, event: "plant", frameIndex: 10 });
    await placePoint.as(coach, { clipId: made.id, frameIndex: last, point: "hip_f", x: 1, y: 1 });
    await addMark.as(coach, { clipId: made.id, frameIndex: 0, shape: { v: 1, kind: "words", x: 1, y: 1, text: "here" } });
    await expect(placePoint.as(coach, { clipId: made.id, frameIndex: last + 1, point: "hip_f", x: 1, y: 1 })).rejects.toThrow("does not belong");
    const row = await database().swingEvent.findFirstOrThrow({ where: { clipId: made.id, event: "plant" } });
    expect(Number(row.tick)).toBe(film.frameTimes.ticks[cut.firstFrame + 10]);
    const view = (await getSwing.as(coach, { swingId: made.swingId })).clips[0]?.clip;
    expect(view?.events.find(({ event }) => event === "plant")).toMatchObject({ frameIndex: 10 });
    if (view) expect(fileSecondsOf(view.frameTimes, 10)).toBeCloseTo(fileSecondsOf(film.frameTimes, cut.firstFrame + 10), 9);
  });

  test("sent twice, the same cuts are made once", async () => {
    const { coach, pia, clip, film } = await sentFilm("twice.mp4");
    await setEvent.as(coach, { clipId: clip.id, event: "contact", frameIndex: 75 });
    const cuts = film.offered.map((cut) => ({ ...cut, playerId: pia }));
    for (let i = 0; i < 2; i++) expect((await cutClip.as(coach, { clipId: clip.id, cuts })).data).toMatchObject({ isWholeKept: true });
    expect(await database().clip.count({ where: { playerId: pia } })).toBe(3);
  });

  test("on whose whole somebody worked is not cut between players, and nothing is half done when one may not be filmed", async () => {
    const { coach, academyId, pia, ned, clip, film } = await sentFilm("worked.mp4");
    const cuts = film.offered.map((cut, i) => ({ ...cut, playerId: i === 0 ? pia : ned }));
    const mark = async () => database().mark.deleteMany({ where: { academyId } });
    await addMark.as(coach, { clipId: clip.id, frameIndex: 5, shape: { v: 1, kind: "words", x: 1, y: 1, text: "here" } });
    await expect(cutClip.as(coach, { clipId: clip.id, cuts })).rejects.toThrow(/Something was placed on the whole film.*Nothing was cut/);
    await mark();
    await database().consent.updateMany({ where: { playerId: ned }, data: { withdrawnAt: new Date() } });
    await expect(cutClip.as(coach, { clipId: clip.id, cuts })).rejects.toThrow("No consent to film Ned");
    await expect(cutClip.as(coach, { clipId: clip.id, cuts: [{ firstFrame: 8, lastFrame: 10, contactFrame: null, playerId: pia }] })).rejects.toThrow("too short");
    expect(await database().clip.findMany({ where: { academyId }, select: { id: true } })).toEqual([{ id: clip.id }]);
    const stranger = await buildPlayer({ academyId });
    await expect(cutClip.as(coach, { clipId: clip.id, cuts: [{ firstFrame: 8, lastFrame: 100, contactFrame: null, playerId: stranger.id }] })).rejects.toThrow("no such");
  });
});
