import { copyFileSync } from "node:fs";
import path from "node:path";
import type { Person } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { newId, type Id } from "@/lib/core/ids";
import { packTicks } from "@/lib/core/packed-ticks";
import { beginUpload } from "@/lib/domains/clips/actions";
import { checkReceivedUpload } from "@/lib/domains/clips/jobs";
import { sendUploadBytes } from "@/lib/domains/clips/routes";
import { dayValue } from "@/lib/core/days";
import { database } from "@/lib/platform/database";
import { fileKeys } from "@/lib/platform/video/incoming";
import { buildAssignment, buildConsent, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { readFileSync } from "node:fs";

/** A coach, signed in, with one player who bats right and may be filmed. */
export async function coachWithPlayer() {
  const player = await buildPlayer({ givenName: "Pia" });
  const { academyId } = player;
  const user = await buildUser({ academyId, roles: ["coach"] });
  await buildAssignment({ academyId, playerId: player.id, userId: user.id });
  const consent = await buildConsent({ academyId, playerId: player.id, recordedById: user.id });
  return { academyId, playerId: player.id, consentId: consent.id, userId: user.id, coach: await signIn(academyId, user.id) };
}

export async function signIn(academyId: Id, userId: Id): Promise<Person> {
  const session = await buildSession({ academyId, userId, activeRole: "coach" });
  const actor = await findActor(session.id);
  if (actor.kind !== "person") throw new Error("nobody signed in");
  return actor;
}

export const facts = {
  side: "right", swingKind: "power", task: "tee", effort: "practice", pitchHeight: "belt", pitchSide: "middle", pitchSpeed: "unknown", batClass: "usual",
  view: "side", isMirrored: false, filmedRate: "as-file", hasCameraMoved: false, hasCameraZoomed: false, isStabilised: false, cameraOffDeg: null,
  filmedOn: "2026-11-25",
} as const;

const TUS = { "tus-resumable": "1.0.0" };
const metadata = (uploadId: string) => `upload ${Buffer.from(uploadId).toString("base64")}`;

export const createBytes = (actor: Person, uploadId: Id, length: number) =>
  sendUploadBytes.as(
    actor,
    new Request("http://cage.test/api/uploads", { method: "POST", headers: { ...TUS, "upload-length": String(length), "upload-metadata": metadata(uploadId) } }),
    {},
  );

export const patchBytes = (actor: Person, uploadId: Id, offset: number, bytes: Uint8Array<ArrayBuffer>) =>
  sendUploadBytes.as(
    actor,
    new Request(`http://cage.test/api/uploads/${uploadId}`, {
      method: "PATCH",
      headers: { ...TUS, "upload-offset": String(offset), "content-type": "application/offset+octet-stream" },
      body: bytes,
    }),
    { tus: [uploadId] },
  );

export const askOffset = (actor: Person, uploadId: Id) =>
  sendUploadBytes.as(actor, new Request(`http://cage.test/api/uploads/${uploadId}`, { method: "HEAD", headers: TUS }), { tus: [uploadId] });

/** Begins an upload and sends all bytes of a file; the worker has not looked yet. */
export async function sendFile(actor: Person, playerId: Id, file: string, given: Partial<Record<keyof typeof facts | "swingId", unknown>> = {}): Promise<Id> {
  const bytes = new Uint8Array(readFileSync(file));
  const begun = await beginUpload.as(actor, { playerId, ...facts, ...given, byteLength: bytes.length } as never);
  const { uploadId } = begun.data as { uploadId: Id };
  const created = await createBytes(actor, uploadId, bytes.length);
  if (created.status !== 201) throw new Error(`not created: ${created.status} ${await created.text()}`);
  const sent = await patchBytes(actor, uploadId, 0, bytes);
  if (sent.status !== 204) throw new Error(`not sent: ${sent.status} ${await sent.text()}`);
  return uploadId;
}

export const work = (uploadId: Id, isLastTry = false) => checkReceivedUpload.perform({ uploadId }, isLastTry);

/** A clip as rows only, without bytes: for what does not look at pictures. With `swingId` it is another camera of that swing. */
export async function buildClip(given: { academyId: Id; playerId: Id; userId: Id; fps?: number; frames?: number; view?: string; side?: string; contentHash?: string; swingId?: Id }) {
  const { academyId, playerId, userId, fps = 240, frames = 480, view = "side", side = "right" } = given;
  const [fileId, swingId, clipId] = [newId(), given.swingId ?? newId(), newId()];
  const contentHash = given.contentHash ?? newId().replaceAll("-", "").repeat(2);
  const keys = fileKeys(academyId, contentHash);
  await database().mediaFile.create({
    data: {
      id: fileId, academyId, contentHash, byteLength: 1n, container: "mp4", codec: "h264", widthPx: 1280, heightPx: 720, rotationDeg: 0, durationS: frames / fps,
      hasSound: false, originalKey: keys.original, steppingKey: keys.stepping, posterKey: keys.poster,
    },
  });
  const packedTicks = packTicks(Array.from({ length: frames }, (_, i) => i * 64));
  await database().fileFrameTimes.create({ data: { academyId, fileId, timeBaseNum: 1, timeBaseDen: fps * 64, frameCount: frames, packedTicks } });
  const { swingKind, task, effort, pitchHeight, pitchSide, pitchSpeed, batClass, filmedOn } = facts;
  const swing = { playerId, side, swingKind, task, effort, pitchHeight, pitchSide, pitchSpeed, batClass, filmedOn: dayValue(filmedOn), createdById: userId };
  if (!given.swingId) await database().swing.create({ data: { id: swingId, academyId, ...swing } });
  await database().clip.create({
    data: {
      id: clipId, academyId, playerId, swingId, fileId, firstFrame: 0, lastFrame: frames - 1, view, isMirrored: false, realSecondsPerFileSecond: 1, timeBasis: "measured",
      createdById: userId,
    },
  });
  return { fileId, swingId, clipId, keys };
}

/** Puts a file of the machine under a blob key. */
export function putBlob(key: string, file: string): void {
  const target = path.join(process.env.BLOB_DIR ?? "", key);
  copyFileSync(file, target);
}
