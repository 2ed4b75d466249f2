import { createWriteStream } from "node:fs";
import path from "node:path";
import { Readable, Transform } from "node:stream";
import { pipeline } from "node:stream/promises";
import { ZipFile } from "yazl";
import type { Person } from "@/lib/access/actor";
import { defineRoute } from "@/lib/access/define-route";
import { may } from "@/lib/access/guard";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { bytesResponse } from "@/lib/platform/blob-response";
import { blobs } from "@/lib/platform/blobs";
import { inTransaction, type Database } from "@/lib/platform/database";
import { inWorkFolder } from "@/lib/platform/work-folder";
import { keepVoice, MOST_VOICE_BYTES, VoiceRefused } from "@/lib/platform/voice/keep-voice";
import { keepVoiceOf, noteReads, voiceKeyOf } from "./commands";
import { renderStills, renderVoice } from "./film/commands";
import { parcelOf } from "./film/view";
import { hearWalkthrough, sendVoiceOf, type TakeSubject, type WalkthroughSubject } from "./policy";
import { takeForm, walkthroughForm } from "./schema";
import { findTakeSubject, findWalkthroughSubject, readWalkthrough } from "./scope";

const walkthroughOf = (input: { walkthroughId: Id }, db: Database, actor: Person) => findWalkthroughSubject(db, { id: input.walkthroughId, academyId: actor.academyId }, actor.today);
const takeOf = (input: { takeId: Id }, db: Database, actor: Person) => findTakeSubject(db, actor.academyId, input.takeId, actor.today);
const named = (_request: Request, params: Readonly<Record<string, string | string[] | undefined>>) => ({ walkthroughId: params.walkthroughId });

/** Takes the voice of a take, whole, from who recorded it. What is no recording of a voice is refused and nothing of it is kept. */
export const sendVoice = defineRoute({
  name: "walkthroughs.send-voice",
  read: (_request, params) => ({ takeId: params.takeId }),
  input: takeForm,
  policy: may<{ takeId: Id }, TakeSubject, "walkthrough.send-voice">(sendVoiceOf, takeOf),
  run: async ({ request, granted }) => {
    if (granted.voiceState === "kept") return new Response(null, { status: 204 });
    if (granted.voiceState === "none" || !request.body) throw new ConflictError("No voice belongs to this recording.");
    const { body } = request;
    try {
      await inWorkFolder(async (folder) => {
        const source = path.join(folder, "received");
        await pipeline(Readable.fromWeb(body as never), limited(MOST_VOICE_BYTES), createWriteStream(source));
        const voice = await keepVoice(source, (extension) => path.join(folder, `voice.${extension}`));
        const key = voiceKeyOf(granted, voice.extension);
        await blobs().keepFile(key, path.join(folder, `voice.${voice.extension}`));
        await inTransaction((tx) => keepVoiceOf(tx, granted, { key, type: voice.type, durationMs: voice.durationMs }));
      });
      return new Response(null, { status: 204 });
    } catch (error) {
      if (error instanceof VoiceRefused) throw new InvalidError(error.message);
      throw error;
    }
  },
});

function limited(mostBytes: number): Transform {
  let count = 0;
  return new Transform({
    transform(bytes: Buffer, _encoding, done) {
      count += bytes.length;
      done(count > mostBytes ? new VoiceRefused("This recording is larger than one of half an hour can be.") : null, bytes);
    },
  });
}

/** The voice of a take, whole or in ranges. */
export const playVoice = defineRoute({
  name: "walkthroughs.play-voice",
  read: (_request, params) => ({ takeId: params.takeId }),
  input: takeForm,
  policy: may<{ takeId: Id }, WalkthroughSubject, "walkthrough.hear">(hearWalkthrough, takeOf),
  run: async ({ request, input, db }) => {
    const take = await db.walkthroughTake.findUniqueOrThrow({ where: { id: input.takeId }, select: { voiceKey: true, voiceType: true } });
    if (!take.voiceKey || !take.voiceType) throw new NotFoundError();
    return bytesResponse(request, take.voiceKey, take.voiceType, `voice-${input.takeId}`);
  },
});

/** The film, as long as everything in it may still be shown. */
export const showFilm = defineRoute({
  name: "walkthroughs.show-film",
  read: named,
  input: walkthroughForm,
  policy: may<{ walkthroughId: Id }, WalkthroughSubject, "walkthrough.hear">(hearWalkthrough, walkthroughOf),
  run: async ({ request, actor, granted, db }) => {
    const view = await readWalkthrough(db, granted.id, "family", actor);
    const { filmKey } = await db.walkthrough.findUniqueOrThrow({ where: { id: granted.id }, select: { filmKey: true } });
    if (view.film !== "ready" || !filmKey) throw new NotFoundError("film");
    await noteReads(db, actor, granted.academyId, Object.entries(view.clips).flatMap(([id, { clip }]) => (clip ? [id] : [])));
    const response = await bytesResponse(request, filmKey, "video/mp4", path.basename(filmKey, ".mp4"));
    response.headers.set("content-disposition", 'attachment; filename="walkthrough.mp4"');
    return response;
  },
});

/** Voice, captions, list of what was shown and stills in one parcel that opens without us. */
export const takeParcel = defineRoute({
  name: "walkthroughs.take-parcel",
  read: named,
  input: walkthroughForm,
  policy: may<{ walkthroughId: Id }, WalkthroughSubject, "walkthrough.hear">(hearWalkthrough, walkthroughOf),
  run: async ({ actor, granted, db }) => {
    const view = await readWalkthrough(db, granted.id, "family", actor);
    const pieces = await inWorkFolder(async (folder) => {
      const zip = new ZipFile();
      const voice = await renderVoice(db, view, folder);
      const stills = await renderStills(db, view, folder);
      for (const { name, words } of parcelOf(view, { hasVoice: voice !== null, stills: stills.map(({ name: still }) => still) })) zip.addBuffer(Buffer.from(words, "utf8"), name, FIXED);
      if (voice) zip.addFile(voice, "voice.webm", { ...FIXED, compress: false });
      for (const { name, bytes } of stills) zip.addBuffer(bytes, `stills/${name}`, { ...FIXED, compress: false });
      zip.end();
      const gathered: Buffer[] = [];
      for await (const piece of zip.outputStream) gathered.push(piece as Buffer);
      return gathered;
    });
    await noteReads(db, actor, granted.academyId, Object.entries(view.clips).flatMap(([id, { clip }]) => (clip ? [id] : [])));
    const headers = { "content-type": "application/zip", "content-disposition": 'attachment; filename="walkthrough.zip"', "cache-control": "private, no-store", "x-content-type-options": "nosniff" };
    return new Response(new Uint8Array(Buffer.concat(pieces)), { headers });
  },
});

/** The same walkthrough makes the same parcel. */
const FIXED = { mtime: new Date("2026-01-01T00:00:00Z"), mode: 0o100644 } as const;
