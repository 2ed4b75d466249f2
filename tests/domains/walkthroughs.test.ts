import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { buildAssignment, buildConsent, buildGuardianship, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { findActor } from "@/lib/access/session";
import { newId, type Id } from "@/lib/core/ids";
import { eraseClip } from "@/lib/domains/clips/erasing/actions";
import { withdrawConsent } from "@/lib/domains/roster/actions";
import { arrangeChapters, askFilm, keepTake, removeWalkthrough, sendWalkthrough, takeBackWalkthrough, writeSummary, writeWords } from "@/lib/domains/walkthroughs/actions";
import { dropFilmsOfErasedClip, dropUnnamedBytes, makeAskedFilm } from "@/lib/domains/walkthroughs/jobs";
import type { Happening, TakeList } from "@/lib/domains/walkthroughs/list/schema";
import { getSentWalkthrough, getWalkthrough, listSentWalkthroughs } from "@/lib/domains/walkthroughs/queries";
import { playVoice, sendVoice, showFilm, takeParcel } from "@/lib/domains/walkthroughs/routes";
import { sentWalkthroughsScope } from "@/lib/domains/walkthroughs/scope";
import { seeSentWalkthrough } from "@/lib/domains/walkthroughs/policy";
import { notShownWords } from "@/lib/domains/walkthroughs/view";
import { blobs } from "@/lib/platform/blobs";
import { database } from "@/lib/platform/database";
import { buildClip, coachWithPlayer, putBlob } from "./clip-story";
import { buildModel } from "./model-story";
import { namesInZip } from "../support/zip-names";
import { filmRoom } from "./video-files";
import { buildTake, listOver } from "./walkthrough-story";

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

const call = (at: number, id: string): Happening => ({ at, kind: "call", called: { kind: "fault", id, name: `The ${id}` } });

/** A take of this player over new clips of it, kept through the action. */
async function kept(given: { happenings?: readonly Happening[]; durationMs?: number; hasVoice?: boolean; clips?: number } = {}) {
  const clips = [];
  for (let i = 0; i < (given.clips ?? 1); i++) clips.push(await buildClip(story));
  const ids = { walkthroughId: newId(), takeId: newId() };
  const list = listOver(clips.map(({ clipId }) => clipId), given);
  const form = { playerId: story.playerId, side: "right" as const, ...ids, list, hasVoice: given.hasVoice ?? false, chapterId: null };
  await keepTake.as(story.coach, form);
  return { ...ids, list, form, clips };
}
const look = (walkthroughId: Id) => getWalkthrough.as(story.coach, { walkthroughId });
const arrange = (walkthroughId: Id, chapters: readonly { id: Id; title: string; fromMs: number; toMs: number }[]) =>
  arrangeChapters.as(story.coach, { walkthroughId, title: "After the lesson", chapters: chapters.map(({ id, title, fromMs, toMs }) => ({ id, title, fromMs, toMs })) });
const putVoice = (takeId: Id, bytes: Uint8Array<ArrayBuffer>, actor = story.coach) => sendVoice.as(actor, new Request("http://cage.test/", { method: "PUT", body: bytes }), { takeId });

/** Two tones of Opus, as a browser records them: a live WebM that says no length. */
function recorded(seconds: number): Uint8Array<ArrayBuffer> {
  const file = path.join(room.folder, `voice-${seconds}.webm`);
  execFileSync("ffmpeg", ["-v", "error", "-y", "-f", "lavfi", "-i", `sine=frequency=300:duration=${seconds}`, "-c:a", "libopus", "-b:a", "32k", "-live", "1", "-f", "webm", file]);
  return new Uint8Array(readFileSync(file));
}

describe("a take that is kept", () => {
  test("becomes a walkthrough with a chapter for each thing that was pointed at, and is kept once however often it is sent", async () => {
    const { walkthroughId, form } = await kept({ happenings: [call(3000, "drift"), call(6000, "drag")], clips: 2 });
    await keepTake.as(story.coach, form);
    const view = await look(walkthroughId);
    expect(view.chapters.map(({ title, fromMs, toMs, about }) => [title, fromMs, toMs, about?.id ?? null])).toEqual([["Opening", 0, 3000, null], ["The drift", 3000, 6000, "drift"], ["The drag", 6000, 10_000, "drag"]]);
    expect(view.takes).toHaveLength(1);
    expect(view.chapters.every(({ swingId }) => swingId !== null)).toBe(true);
  });

  test("over another player's clip, a clip that is not there, or with what is not so of a clip, is refused whole", async () => {
    const other = await buildPlayer({ academyId: story.academyId });
    const strange = await buildClip({ ...story, playerId: other.id });
    const own = await buildClip(story);
    const send = (list: TakeList) => keepTake.as(story.coach, { playerId: story.playerId, side: "right", walkthroughId: newId(), takeId: newId(), list, hasVoice: false, chapterId: null });
    const before = await database().walkthrough.count();
    await expect(send(listOver([own.clipId, strange.clipId]))).rejects.toThrow("not this player’s");
    await expect(send(listOver([newId()]))).rejects.toThrow("not this player’s");
    const list = listOver([own.clipId]);
    for (const wrong of [{ frameCount: 481 }, { widthPx: 640 }, { realSecondsPerFileSecond: 0.125 }, { zeroTick: -1 }, { zeroTick: 1e9 }]) {
      await expect(send({ ...list, clips: [{ ...list.clips[0], ...wrong } as TakeList["clips"][number]] })).rejects.toThrow(/not so/);
    }
    expect(await database().walkthrough.count()).toBe(before);
  });

  test("of one chapter alone leaves the others, and the recording that nobody tells any more goes", async () => {
    const { walkthroughId, form, takeId } = await kept({ happenings: [call(4000, "drift")] });
    const [opening, drift] = (await look(walkthroughId)).chapters;
    const again = newId();
    await keepTake.as(story.coach, { ...form, takeId: again, list: { ...form.list, durationMs: 2500, happenings: [] }, chapterId: drift?.id ?? "" });
    const after = await look(walkthroughId);
    expect(after.chapters.map((it) => [it.id, it.takeId, it.fromMs, it.toMs, it.title])).toEqual([[opening?.id, takeId, 0, 4000, "Opening"], [drift?.id, again, 0, 2500, "The drift"]]);
    await keepTake.as(story.coach, { ...form, takeId: newId(), list: { ...form.list, happenings: [] }, chapterId: opening?.id ?? "" });
    expect(await database().walkthroughTake.count({ where: { id: takeId } })).toBe(0);
  });

  test("belongs to its walkthrough and player: another player's name on it finds nothing", async () => {
    const { form } = await kept();
    const other = await buildPlayer({ academyId: story.academyId });
    await buildAssignment({ academyId: story.academyId, playerId: other.id, userId: story.userId });
    const coach = await findActor(story.coach.sessionId);
    await expect(keepTake.as(coach, { ...form, playerId: other.id })).rejects.toThrow();
  });
});

describe("chapters and words", () => {
  test("are put in another order, trimmed and left out, and the words go with what they were said to", async () => {
    const { walkthroughId } = await kept({ happenings: [call(4000, "drift"), call(7000, "drag")] });
    await writeWords.as(story.coach, { walkthroughId, captions: "WEBVTT\n\n00:00.000 --> 00:02.000\nHello <b>Pia</b>\n\n00:04.500 --> 00:05.000\nSee the drift\n\n00:08.000 --> 00:09.000\nAnd <v Coach>the drag</v>" });
    const [opening, drift, drag] = (await look(walkthroughId)).chapters;
    if (!opening || !drift || !drag) throw new Error("three chapters were made");
    await arrange(walkthroughId, [{ ...drag, fromMs: 7500 }, { ...opening, title: "Last" }]);
    const view = await look(walkthroughId);
    expect(view.chapters.map(({ title }) => title)).toEqual(["The drag", "Last"]);
    expect(view.captions).toBe("WEBVTT\n\n00:00:00.500 --> 00:00:01.500\nAnd Coach: the drag\n\n00:00:02.500 --> 00:00:04.500\nHello Pia\n");
    await expect(arrange(walkthroughId, [drift])).rejects.toThrow("not those");
    await expect(arrange(walkthroughId, [{ ...opening, toMs: 10_001 }])).rejects.toThrow("not those");
    await expect(writeWords.as(story.coach, { walkthroughId, captions: "1\n00:00:01,000 --> 00:00:02,000\nno WebVTT" })).rejects.toThrow("line 1");
    await expect(writeWords.as(story.coach, { walkthroughId, captions: "WEBVTT\n\n00:30.000 --> 00:31.000\nlate" })).rejects.toThrow("after the end");
  });

  test("the summary is drafted from what was called on the swing", async () => {
    const { walkthroughId, clips } = await kept({ happenings: [call(2000, "drift"), call(6000, "drag")] });
    await database().observation.create({ data: { id: newId(), academyId: story.academyId, swingId: clips[0]?.swingId ?? "", faultId: "drift", state: "seen", source: "eye", editionId: newId(), calledById: story.userId } });
    const view = await look(walkthroughId);
    expect(view.chapters.map(({ sight }) => sight)).toEqual([null, "seen", null]);
    expect(view.summaryDraft).toBe("We look at what shows in Pia’s swing: the drift. We talk about the drag.");
    await writeSummary.as(story.coach, { walkthroughId, summary: "  You stay back longer.  " });
    await expect(writeSummary.as(story.coach, { walkthroughId, summary: "Your swing is terrible." })).rejects.toThrow("“terrible”");
    expect((await look(walkthroughId)).summary).toBe("You stay back longer.");
  });
});

describe("what the family sees", () => {
  test("is what was sent, and no more once it is taken back; scope and policy give one answer", async () => {
    const { walkthroughId } = await kept();
    await expect(getSentWalkthrough.as(guardian, { walkthroughId })).rejects.toThrow();
    const sent = await sendWalkthrough.as(story.coach, { walkthroughId });
    expect(sent.message).toMatch(/^Sent to /);
    const view = await getSentWalkthrough.as(guardian, { walkthroughId });
    expect(Object.values(view.clips).map(({ clip }) => clip !== null)).toEqual([true]);
    expect(view.chapters.every(({ swingId, sight }) => swingId === null && sight === null)).toBe(true);
    expect((await listSentWalkthroughs.as(guardian, { playerId: story.playerId })).map(({ id }) => id)).toContain(walkthroughId);
    expect(await database().notice.count({ where: { subjectId: walkthroughId, kind: "walkthrough-sent" } })).toBe(1);
    for (const actor of [guardian, story.coach]) {
      const rows = await database().walkthrough.findMany({ where: { academyId: story.academyId } });
      const listed = (await database().walkthrough.findMany({ where: sentWalkthroughsScope(actor) })).map(({ id }) => id).sort();
      expect(rows.filter((row) => seeSentWalkthrough.allows(actor, { ...row, isSent: row.sentAt !== null, isPermitted: true })).map(({ id }) => id).sort()).toEqual(listed);
    }
    await takeBackWalkthrough.as(story.coach, { walkthroughId });
    await expect(getSentWalkthrough.as(guardian, { walkthroughId })).rejects.toThrow();
  });

  test("a model's film is the coaches' alone, and a clip that was removed says so in its place", async () => {
    const hitter = await buildPlayer({ academyId: story.academyId });
    const model = await buildClip({ ...story, playerId: hitter.id });
    for (const use of ["lesson", "staff-training"] as const) await buildConsent({ academyId: story.academyId, playerId: hitter.id, recordedById: story.userId, use });
    await buildModel({ academyId: story.academyId, userId: story.userId, playerId: hitter.id, swingId: model.swingId, label: "Long levers" });
    const own = await buildClip(story);
    const walkthroughId = newId();
    await keepTake.as(story.coach, { playerId: story.playerId, side: "right", walkthroughId, takeId: newId(), list: listOver([own.clipId, model.clipId]), hasVoice: false, chapterId: null });
    await sendWalkthrough.as(story.coach, { walkthroughId });
    expect((await look(walkthroughId)).clips[model.clipId]?.clip).toMatchObject({ playerName: "Long levers" });
    const family = await getSentWalkthrough.as(guardian, { walkthroughId });
    expect(family.clips[model.clipId]).toEqual({ clip: null, why: notShownWords["model-for-coaches"], isModel: true });
    await database().modelSwing.updateMany({ where: { swingId: model.swingId }, data: { withdrawnAt: new Date("2026-11-25T10:00:00Z"), withdrawnById: story.userId } });
    expect((await look(walkthroughId)).clips[model.clipId]).toMatchObject({ clip: null, why: notShownWords["model-ended"] });
    await database().clip.delete({ where: { id: own.clipId } });
    expect((await look(walkthroughId)).clips[own.clipId]).toMatchObject({ clip: null, why: notShownWords.gone });
  });
});

describe("the voice", () => {
  test("is kept with the length that it has and can be gone to at any instant; a second one is not taken", async () => {
    const { takeId, walkthroughId } = await kept({ hasVoice: true });
    await expect(sendWalkthrough.as(story.coach, { walkthroughId })).rejects.toThrow("on its way");
    const answer = await putVoice(takeId, recorded(4));
    expect([answer.status, await answer.text()]).toEqual([204, ""]);
    const [take] = (await look(walkthroughId)).takes;
    expect(Math.abs((take?.voiceMs ?? 0) - 4000)).toBeLessThan(40);
    const played = await playVoice.as(story.coach, new Request("http://cage.test/", { headers: { range: "bytes=0-99" } }), { takeId });
    expect([played.status, played.headers.get("content-type")]).toEqual([206, "audio/webm"]);
    expect((await putVoice(takeId, recorded(2))).status).toBe(204);
    expect((await look(walkthroughId)).takes[0]?.voiceMs).toBe(take?.voiceMs);
  }, 90_000);

  test("a recording that was cut off is kept as far as it goes; what is none is refused", async () => {
    const { takeId } = await kept({ hasVoice: true });
    for (const bytes of [new TextEncoder().encode("<script>alert(1)</script>".repeat(9)), new Uint8Array(readFileSync(room.plain("film.mp4", { frames: 5 })))]) {
      const refused = await putVoice(takeId, bytes as Uint8Array<ArrayBuffer>);
      expect([refused.status, await refused.text()]).toEqual([422, "This is not a recording of one voice."]);
    }
    const whole = recorded(4);
    expect((await putVoice(takeId, whole.slice(0, Math.floor(whole.length * 0.6)))).status).toBe(204);
    const row = await database().walkthroughTake.findUniqueOrThrow({ where: { id: takeId } });
    expect(row.voiceMs).toBeGreaterThan(1500);
    expect(row.voiceMs).toBeLessThan(3500);
  }, 90_000);
});

describe("what is taken away", () => {
  async function filmed() {
    const { takeId, walkthroughId, clips } = await kept({
      hasVoice: true, durationMs: 1000, clips: 2,
      happenings: [{ at: 300, kind: "mark", id: "a", clip: 0, frame: 240, shape: { v: 1, kind: "ring", cx: 640, cy: 360, rx: 100, ry: 60 }, overMs: 200 }, { at: 700, kind: "play", rate: 0.25, fromSeconds: 0, toSeconds: 0.5, clips: [0, 1] }],
    });
    const copy = room.plain("copy-480.mp4", { frames: 480, size: "320x180", fps: 240 });
    for (const { keys } of clips) {
      mkdirSync(path.join(process.env.BLOB_DIR ?? "", path.dirname(keys.stepping)), { recursive: true });
      putBlob(keys.stepping, copy);
    }
    await putVoice(takeId, recorded(0.6));
    await writeWords.as(story.coach, { walkthroughId, captions: "WEBVTT\n\n00:00.000 --> 00:00.900\nHere, look" });
    await sendWalkthrough.as(story.coach, { walkthroughId });
    return { walkthroughId, takeId };
  }

  test("is a parcel with voice, captions, list and stills, and a film as long as the talk with its voice", async () => {
    const { walkthroughId } = await filmed();
    const parcel = await takeParcel.as(guardian, new Request("http://cage.test/"), { walkthroughId });
    expect(parcel.status).toBe(200);
    expect(namesInZip(Buffer.from(await parcel.arrayBuffer())).sort()).toEqual(["README.txt", "captions.vtt", "stills/01-at-0m00s.jpg", "stills/02-at-0m00s.jpg", "voice.webm", "walkthrough.json"]);

    await askFilm.as(guardian, { walkthroughId });
    expect(await makeAskedFilm.perform({ walkthroughId }, false)).toEqual({ is: "done" });
    const film = await showFilm.as(guardian, new Request("http://cage.test/"), { walkthroughId });
    expect([film.status, film.headers.get("content-type")]).toEqual([200, "video/mp4"]);
    const file = path.join(room.folder, "film.mp4");
    writeFileSync(file, Buffer.from(await film.arrayBuffer()));
    const said = execFileSync("ffprobe", ["-v", "error", "-show_entries", "stream=codec_name,duration", "-of", "csv=p=0", file], { encoding: "utf8" }).trim().split("\n").map((line) => line.split(","));
    expect(said.map(([codec]) => codec)).toEqual(["h264", "aac"]);
    for (const [, seconds] of said) expect(Math.abs(Number(seconds) - 1)).toBeLessThan(0.08);
    expect(await database().mediaRead.count({ where: { sessionId: guardian.kind === "person" ? guardian.sessionId : "" } })).toBeGreaterThanOrEqual(2);

    // A clip that is erased takes the film's bytes along, and nothing else of the talk.
    const { filmKey } = await database().walkthrough.findUniqueOrThrow({ where: { id: walkthroughId } });
    const [shown] = await database().walkthroughClip.findMany({ where: { walkthroughId } });
    expect(await dropFilmsOfErasedClip.perform({ academyId: story.academyId, clipId: newId() }, false)).toMatchObject({ is: "skipped" });
    await eraseClip.as(story.coach, { clipId: shown?.clipId ?? "" });
    expect(await dropFilmsOfErasedClip.perform({ academyId: story.academyId, clipId: shown?.clipId }, false)).toEqual({ is: "done" });
    expect(await blobs().lengthOf(filmKey ?? "")).toBeNull();
    expect(await look(walkthroughId)).toMatchObject({ film: "none", clips: { [shown?.clipId ?? ""]: { clip: null, why: notShownWords.gone } } });
    await askFilm.as(guardian, { walkthroughId });
    expect(await makeAskedFilm.perform({ walkthroughId }, false)).toEqual({ is: "done" });

    // What changes afterwards makes the film out of date: nobody gets it any more.
    await writeWords.as(story.coach, { walkthroughId, captions: "" });
    expect((await look(walkthroughId)).film).toBe("out-of-date");
    expect((await showFilm.as(guardian, new Request("http://cage.test/"), { walkthroughId })).status).toBe(404);
  }, 120_000);

  test("is nothing any more once it is removed: rows and bytes go", async () => {
    const { walkthroughId, takeId } = await filmed();
    const { voiceKey } = await database().walkthroughTake.findUniqueOrThrow({ where: { id: takeId } });
    expect(await dropUnnamedBytes.perform({ key: voiceKey }, false)).toMatchObject({ is: "skipped" });
    await removeWalkthrough.as(story.coach, { walkthroughId });
    expect(await database().walkthrough.count({ where: { id: walkthroughId } })).toBe(0);
    expect(await dropUnnamedBytes.perform({ key: voiceKey }, false)).toEqual({ is: "done" });
    expect(await blobs().lengthOf(voiceKey ?? "")).toBeNull();
  }, 60_000);
});

test("a consent that is withdrawn takes pictures, voice, film and parcel away at once; the words stay", async () => {
  const own = await coachWithPlayer();
  const { id: userId } = await buildUser({ academyId: own.academyId, roles: ["guardian"] });
  await buildGuardianship({ academyId: own.academyId, playerId: own.playerId, userId });
  const parent = await findActor((await buildSession({ academyId: own.academyId, userId, activeRole: "guardian" })).id);
  const { walkthroughId, takeId } = await buildTake({ ...own, sentAt: new Date("2026-11-25T12:00:00Z") });
  expect((await getSentWalkthrough.as(parent, { walkthroughId })).isPermitted).toBe(true);
  await withdrawConsent.as(parent, { playerId: own.playerId, use: "lesson" });
  const view = await getSentWalkthrough.as(parent, { walkthroughId });
  expect(view.isPermitted).toBe(false);
  expect(Object.values(view.clips)).toEqual([{ clip: null, why: notShownWords["no-consent"], isModel: false }]);
  expect(view.takes[0]?.voiceUrl).toBeNull();
  for (const actor of [parent, own.coach]) {
    expect((await playVoice.as(actor, new Request("http://cage.test/"), { takeId })).status).toBe(404);
    expect((await showFilm.as(actor, new Request("http://cage.test/"), { walkthroughId })).status).toBe(404);
    expect((await takeParcel.as(actor, new Request("http://cage.test/"), { walkthroughId })).status).toBe(404);
  }
  await expect(sendWalkthrough.as(own.coach, { walkthroughId })).rejects.toThrow("No consent");
});
