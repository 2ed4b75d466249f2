import { execFile } from "node:child_process";
import { createReadStream, existsSync } from "node:fs";
import { rename, stat } from "node:fs/promises";
import path from "node:path";
import { promisify } from "node:util";
import { authorize } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import { beginUpload } from "@/lib/domains/clips/actions";
import { receiveUpload } from "@/lib/domains/clips/commands";
import type { BegunUpload } from "@/lib/domains/clips/schema";
import { checkReceivedUpload } from "@/lib/domains/clips/jobs";
import { sendBytes } from "@/lib/domains/clips/policy";
import { answerSent, beginSent } from "@/lib/domains/clips/sent/actions";
import { findUploadSubject } from "@/lib/domains/clips/scope";
import { blobs } from "@/lib/platform/blobs";
import { daysAfter } from "@/lib/core/days";
import { database, inTransaction } from "@/lib/platform/database";
import { hashOf } from "@/lib/platform/video/ingest";
import { receivedKey } from "@/lib/platform/video/incoming";
import { cachedSwing, swingFileName } from "../media/cache";
import type { SwingSpec } from "../media/spec";
import type { DemoFilm } from "./films";
import { markSwing } from "./mark-swing";

/** Where drawn swings are kept between starts. */
const CACHE = path.resolve(".data/drawn-swings");

/** Who looks at what was sent: this process, while no worker runs yet, or the worker. */
export type CheckedBy = "us" | "worker";

/** Films that are being drawn or were: a swing that is wanted twice at once is drawn once. */
const drawings = new Map<string, ReturnType<typeof cachedSwing>>();

function drawingOf(spec: SwingSpec): ReturnType<typeof cachedSwing> {
  const name = swingFileName(spec);
  const begun = drawings.get(name);
  if (begun) return begun;
  const drawing = cachedSwing(spec, CACHE);
  drawings.set(name, drawing);
  // Whoever wants it is told if it failed; whoever wants it again begins anew.
  drawing.catch(() => drawings.delete(name));
  return drawing;
}

/** Begins a film before it is wanted: looking at the one before leaves half of the machine idle. */
export function drawAhead({ spec }: DemoFilm): void {
  void drawingOf(spec).catch(() => undefined);
}

/**
 * Draws a swing, sends it the way a phone's film goes (upload, check, clip), as the coach or as the player who asks something with it, and marks it where a coach would have. A
 * film that is there already is left alone. @returns the clip
 */
export async function addFilm(film: DemoFilm, playerId: Id, coach: Person, self: Person | null, checkedBy: CheckedBy): Promise<{ clipId: Id; swingId: Id }> {
  const { path: drawn, truth } = await drawingOf(film.spec);
  const file = film.isMirrored ? await mirrored(drawn) : drawn;
  const contentHash = await hashOf(createReadStream(file));
  const where = { academyId: coach.academyId, playerId, file: { contentHash } };
  const before = await database().clip.findFirst({ where, select: { id: true, swingId: true } });
  if (before) return { clipId: before.id, swingId: before.swingId };

  const { view, side, task } = film.spec;
  const sender = film.sent && self ? self : coach;
  const { data } = film.sent && self ? await beginSent.as(self, { playerId, side, view, task, filmedRate: "as-file", words: film.sent.words, contentHash, byteLength: (await stat(file)).size }) : await beginUpload.as(coach, {
    playerId, side, view, task, contentHash,
    byteLength: (await stat(file)).size,
    filmedOn: daysAfter(coach.today, -film.daysAgo),
    swingKind: "power", effort: "game", pitchHeight: "belt", pitchSide: "middle", pitchSpeed: "unknown", batClass: "usual",
    isMirrored: film.isMirrored, filmedRate: "as-file", hasCameraMoved: false, hasCameraZoomed: false, isStabilised: false,
    cameraOffDeg: Math.abs(film.spec.cameraOffDeg),
    swingId: film.otherCameraOf ? await swingOf(film.otherCameraOf, playerId, coach) : null,
  });
  const { uploadId } = data as BegunUpload;
  await blobs().keepStream(receivedKey(uploadId), createReadStream(file));
  await inTransaction(async (tx) => receiveUpload(tx, authorize(sender, sendBytes, await findUploadSubject(tx, { id: uploadId }))));
  if (checkedBy === "us") await checkReceivedUpload.perform({ uploadId }, true);
  else await untilReady(uploadId);
  const clip = await database().clip.findFirstOrThrow({ where, select: { id: true, swingId: true } });
  await database().upload.updateMany({ where: { id: uploadId }, data: { dismissedAt: new Date() } });
  if (film.sent?.answer && self) await answerFilm(coach, uploadId, clip.id, truth.contactFrame, film.sent.answer);
  if (film.marked !== "no") await markSwing({ academyId: coach.academyId, clipId: clip.id, swingId: clip.swingId, coachId: coach.userId }, truth, film);
  return { clipId: clip.id, swingId: clip.swingId };
}

async function answerFilm(coach: Person, uploadId: Id, clipId: Id, frameIndex: number, words: string): Promise<void> {
  const { id: sentId } = await database().sentClip.findUniqueOrThrow({ where: { uploadId }, select: { id: true } });
  await answerSent.as(coach, { sentId, clipId, frameIndex, words });
}

/** The swing that the first camera filmed. @throws Error while that film is not a clip of the player */
async function swingOf(spec: SwingSpec, playerId: Id, coach: Person): Promise<Id> {
  const { path: file } = await drawingOf(spec);
  const contentHash = await hashOf(createReadStream(file));
  const clip = await database().clip.findFirstOrThrow({ where: { academyId: coach.academyId, playerId, file: { contentHash } }, select: { swingId: true } });
  return clip.swingId;
}

/** The same film as a front camera keeps it; drawn once. */
async function mirrored(file: string): Promise<string> {
  const flipped = file.replace(/\.mp4$/, ".mirrored.mp4");
  if (existsSync(flipped)) return flipped;
  const half = `${flipped}.${process.pid}.part.mp4`;
  await promisify(execFile)("ffmpeg", ["-v", "error", "-y", "-i", file, "-vf", "hflip", "-c:v", "libx264", "-preset", "veryfast", "-crf", "20", "-pix_fmt", "yuv420p", "-fps_mode", "passthrough", "-c:a", "copy", half]);
  await rename(half, flipped);
  return flipped;
}

/** Waits for the worker. @throws Error when it refused the film or took more than five minutes */
async function untilReady(uploadId: Id): Promise<void> {
  for (let second = 0; second < 300; second++) {
    const upload = await database().upload.findUniqueOrThrow({ where: { id: uploadId }, select: { state: true, refusal: true } });
    if (upload.state === "ready") return;
    if (upload.state !== "checking") throw new Error(upload.refusal ?? `the film was ${upload.state}`);
    await new Promise((resolve) => setTimeout(resolve, 1000));
  }
  throw new Error("the worker did not look at the film within five minutes");
}
