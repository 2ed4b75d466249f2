import path from "node:path";
import { MemoryLocker, Metadata, Server } from "@tus/server";
import type { Person } from "@/lib/access/actor";
import { defineRoute } from "@/lib/access/define-route";
import { may } from "@/lib/access/guard";
import { DomainError, NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { bytesResponse } from "@/lib/platform/blob-response";
import { blobs } from "@/lib/platform/blobs";
import type { Database } from "@/lib/platform/database";
import { IncomingStore } from "@/lib/platform/video/incoming-store";
import { makeStill } from "@/lib/platform/video/make-pictures";
import { inWorkFolder } from "@/lib/platform/work-folder";
import { receiveIfArrived } from "./arriving/commands";
import { readPictures } from "./cutting/commands";
import { sendBytes, watchClip, type ClipSubject, type UploadSubject } from "./policy";
import { clipIdForm, stillForm, uploadIdForm } from "./schema";
import { findClipSubject, findUploadSubject, timesOfClip } from "./scope";
import { noteLooked } from "./sent/commands";
import { noteRead } from "./watching/commands";

// ---- Bytes in ----------------------------------------------------------------------------------------------------

const locker = new MemoryLocker();

/**
 * The upload that a request of the tus protocol is about: named in the address, at its creation in the metadata. The
 * protocol's server goes by the last part of an address, so one that names more than one upload names none.
 */
function uploadNamed(request: Request, named: string | string[] | undefined): unknown {
  const parts = [named ?? []].flat();
  if (request.method !== "POST") return parts.length === 1 ? parts[0] : undefined;
  if (parts.length > 0) return undefined;
  try {
    return Metadata.parse(request.headers.get("upload-metadata") ?? undefined).upload;
  } catch {
    return undefined;
  }
}

/** Takes the bytes of an upload, piece by piece, from who began it (open protocol tus 1.0). The file's name is not kept. */
export const sendUploadBytes = defineRoute({
  name: "clips.send-upload-bytes",
  read: (request, params) => ({ uploadId: uploadNamed(request, params.tus) }),
  input: uploadIdForm,
  policy: may<{ uploadId: Id }, UploadSubject, "upload.send">(sendBytes, (input, db, actor) => findUploadSubject(db, { id: input.uploadId, academyId: actor.academyId })),
  run: async ({ request, granted }) => {
    // The last byte may have come just before the house fell: then nobody was told of it.
    const state = granted.state === "receiving" && (await receiveIfArrived(granted)) ? "checking" : granted.state;
    if (request.method === "HEAD" && (state === "checking" || state === "ready")) return wholeThere(granted.byteLength);
    if (request.method !== "HEAD" && state !== "receiving") return new Response("This sending has ended already.", { status: 410 });
    const server = new Server({
      path: "/api/uploads",
      relativeLocation: true,
      datastore: new IncomingStore(),
      locker,
      maxSize: granted.byteLength,
      namingFunction: () => granted.id,
      onUploadCreate: async (_request, upload) => {
        if (upload.size !== granted.byteLength) throw { status_code: 409, body: "This is not the length that was said before." };
        return { metadata: { upload: granted.id } };
      },
      onUploadFinish: async () => {
        const isReceived = await receiveIfArrived(granted).catch((error: unknown) => {
          throw error instanceof DomainError ? { status_code: error.status, body: error.message } : error;
        });
        if (!isReceived) throw { status_code: 410, body: "This sending has ended already." };
        return {};
      },
    });
    return server.handleWeb(request);
  },
});

/** Tells a sender who asks how far it is that every byte is here. */
function wholeThere(byteLength: number): Response {
  const length = String(byteLength);
  return new Response(null, { status: 200, headers: { "tus-resumable": "1.0.0", "cache-control": "no-store", "upload-offset": length, "upload-length": length } });
}

// ---- Pictures out ------------------------------------------------------------------------------------------------

const clipOf = (input: { clipId: Id }, db: Database, actor: Person) => findClipSubject(db, actor.academyId, input.clipId, actor.today);

/** The copy that is stepped through, whole or in ranges. */
export const streamSteppingCopy = defineRoute({
  name: "clips.stream-stepping-copy",
  read: (_request, params) => ({ clipId: params.clipId }),
  input: clipIdForm,
  policy: may(watchClip, clipOf),
  run: async ({ request, actor, granted, db }) => {
    const { steppingKey, tag } = await readPictures(db, granted);
    await noteRead(db, actor, granted);
    await noteLooked(db, actor, granted);
    return bytesResponse(request, steppingKey, "video/mp4", `${tag}-stepping`);
  },
});

/** The one picture that stands for a clip in lists. */
export const showPoster = defineRoute({
  name: "clips.show-poster",
  read: (_request, params) => ({ clipId: params.clipId }),
  input: clipIdForm,
  policy: may(watchClip, clipOf),
  run: async ({ request, actor, granted, db }) => {
    const pictures = await readPictures(db, granted);
    const key = pictures.posterKey ?? pictures.keys.poster;
    if (!pictures.posterKey && (await blobs().lengthOf(key)) === null) await keepStill(db, granted, pictures.steppingKey, await posterFrame(db, granted), key, POSTER_WIDTH_PX);
    await noteRead(db, actor, granted);
    return bytesResponse(request, key, "image/jpeg", `${pictures.tag}-poster`);
  },
});

/** One frame of a clip, made when it is first asked for. */
export const showStill = defineRoute({
  name: "clips.show-still",
  read: (_request, params) => ({ clipId: params.clipId, frameIndex: params.frameIndex }),
  input: stillForm,
  policy: may<{ clipId: Id; frameIndex: number }, ClipSubject, "clip.watch">(watchClip, clipOf),
  run: async ({ request, actor, input, granted, db }) => {
    const { frameIndex } = input;
    if (frameIndex < 0 || frameIndex > granted.lastFrame - granted.firstFrame) throw new NotFoundError();
    const { keys, steppingKey, tag } = await readPictures(db, granted);
    const key = keys.still(frameIndex);
    if ((await blobs().lengthOf(key)) === null) await keepStill(db, granted, steppingKey, frameIndex, key);
    await noteRead(db, actor, granted);
    return bytesResponse(request, key, "image/jpeg", `${tag}-still-${frameIndex}`);
  },
});

const POSTER_WIDTH_PX = 640;

/** The frame that stands for a stretch of a film: contact, else its middle. */
async function posterFrame(db: Database, clip: ClipSubject): Promise<number> {
  const contact = await db.swingEvent.findFirst({ where: { academyId: clip.academyId, clipId: clip.id, event: "contact" }, select: { frameIndex: true } });
  return contact?.frameIndex ?? (clip.lastFrame - clip.firstFrame) >> 1;
}

async function keepStill(db: Database, clip: ClipSubject, steppingKey: string, frameIndex: number, key: string, widthPx?: number): Promise<void> {
  const row = await db.fileFrameTimes.findUnique({ where: { academyId_fileId: { academyId: clip.academyId, fileId: clip.fileId } } });
  await inWorkFolder(async (folder) => {
    const still = path.join(folder, "still.jpg");
    await blobs().withFile(steppingKey, (copy) => makeStill(copy, timesOfClip({ ...clip, file: { frameTimes: row } }), frameIndex, still, widthPx));
    await blobs().keepFile(key, still);
  });
}
