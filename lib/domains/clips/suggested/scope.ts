import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import type { ClipSubject } from "../policy";
import { findClipSubject, readSwingPage } from "../scope";
import type { ClipView } from "../view";

/** A clip by its id alone, as the worker is told of it. */
export async function findClipToSuggest(db: Database, clipId: Id, today: string): Promise<ClipSubject | null> {
  const row = await db.clip.findFirst({ where: { id: clipId }, select: { academyId: true } });
  return row && findClipSubject(db, row.academyId, clipId, today);
}

/** What is recorded of a clip, for choosing frames and people; null when it is gone. */
export async function readClipToSuggest(db: Database, { id, swingId }: ClipSubject, today: string): Promise<ClipView | null> {
  const page = await readSwingPage(db, swingId, today);
  return page.clips.find(({ clip }) => clip.id === id)?.clip ?? null;
}

/** What the last look at a clip came to, with the frames that it looked at. */
export async function readLastLook(db: Database, { academyId, id: clipId }: Pick<ClipSubject, "academyId" | "id">) {
  const run = await db.suggestingRun.findUnique({ where: { academyId_clipId: { academyId, clipId } } });
  const frames = await db.suggestedFrame.findMany({ where: { academyId, clipId }, orderBy: { frameIndex: "asc" }, select: { frameIndex: true, presence: true } });
  return { run, frames };
}
