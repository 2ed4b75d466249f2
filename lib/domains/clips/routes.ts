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
import { fileKeys } from "@/lib/platform/video/incoming";
import { IncomingStore } from "@/lib/platform/video/incoming-store";
import { makeStill } from "@/lib/platform/video/make-pictures";
import { inWorkFolder } from "@/lib/platform/work-folder";
import { receiveIfArrived } from "./arriving/commands";
import { sendBytes, watchClip, type ClipSubject, type UploadSubject } from "./policy";
import { clipIdForm, stillForm, uploadIdForm } from "./schema";
import { findClipSubject, findUploadSubject, timesOf } from "./scope";
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
const fileOf = (db: Database, clip: ClipSubject) =>
  db.mediaFile.findUniqueOrThrow({ where: { id: clip.fileId }, select: { contentHash: true, steppingKey: true, posterKey: true } });

/** The copy that is stepped through, whole or in ranges. */
export const streamSteppingCopy = defineRoute({
  name: "clips.stream-stepping-copy",
  read: (_request, params) => ({ clipId: params.clipId }),
  input: clipIdForm,
  policy: may(watchClip, clipOf),
  run: async ({ request, actor, granted, db }) => {
    const file = await fileOf(db, granted);
    await noteRead(db, actor, granted);
    return bytesResponse(request, file.steppingKey, "video/mp4", `${file.contentHash}-stepping`);
  },
});

/** The one picture that stands for a clip in lists. */
export const showPoster = defineRoute({
  name: "clips.show-poster",
  read: (_request, params) => ({ clipId: params.clipId }),
  input: clipIdForm,
  policy: may(watchClip, clipOf),
  run: async ({ request, actor, granted, db }) => {
    const file = await fileOf(db, granted);
    await noteRead(db, actor, granted);
    return bytesResponse(request, file.posterKey, "image/jpeg", `${file.contentHash}-poster`);
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
    if (frameIndex < granted.firstFrame || frameIndex > granted.lastFrame) throw new NotFoundError();
    const file = await fileOf(db, granted);
    const key = fileKeys(granted.academyId, file.contentHash).still(frameIndex);
    if ((await blobs().lengthOf(key)) === null) await keepStill(db, granted, file.steppingKey, frameIndex, key);
    await noteRead(db, actor, granted);
    return bytesResponse(request, key, "image/jpeg", `${file.contentHash}-still-${frameIndex}`);
  },
});

async function keepStill(db: Database, clip: ClipSubject, steppingKey: string, frameIndex: number, key: string): Promise<void> {
  const row = await db.fileFrameTimes.findUnique({ where: { academyId_fileId: { academyId: clip.academyId, fileId: clip.fileId } } });
  await inWorkFolder(async (folder) => {
    const still = path.join(folder, "still.jpg");
    await blobs().withFile(steppingKey, (copy) => makeStill(copy, timesOf(row), frameIndex, still));
    await blobs().keepFile(key, still);
  });
}
