import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import type { UploadSubject } from "../policy";
import { permitSelect } from "../scope";
import type { ArrivingSubject } from "./policy";

/**
 * An upload of the academy with whether its film may be shown today: while it is looked at, and, since a page may ask a moment late, when it
 * has become a whole clip of the same player.
 */
export async function findArrivingSubject(db: Database, academyId: Id, uploadId: Id, today: string): Promise<ArrivingSubject | null> {
  const row = await db.upload.findFirst({
    where: { id: uploadId, academyId, OR: [{ hasPoster: true, state: "checking" }, { state: "ready" }] },
    select: {
      id: true, academyId: true, playerId: true, userId: true, state: true, byteLength: true, file: { select: { posterKey: true, frameTimes: { select: { frameCount: true } } } },
      clip: { select: { playerId: true, firstFrame: true, lastFrame: true } },
      player: { select: permitSelect(today) },
    },
  });
  if (!row) return null;
  const { player, byteLength, file, clip, ...upload } = row;
  const subject = { ...upload, byteLength: Number(byteLength), isPermitted: player.permits.length > 0, keptPosterKey: null };
  if (row.state === "checking") return subject;
  // A stretch of a film has pictures of its own: the film's may show another child.
  const isWhole = clip?.playerId === row.playerId && clip.firstFrame === 0 && clip.lastFrame + 1 === file?.frameTimes?.frameCount;
  return isWhole && file ? { ...subject, keptPosterKey: file.posterKey } : null;
}

const MOST_AT_ONCE = 500;

/** The uploads of all academies that are under way, oldest first; of the refused ones those whose time for another try ended before an instant. */
export async function readUploadsUnderWay(db: Database, state: "receiving" | "checking" | { readonly refusedBefore: Date }): Promise<UploadSubject[]> {
  const rows = await db.upload.findMany({
    where: typeof state === "string" ? { state } : { state: "refused", canRetry: true, finishedAt: { lt: state.refusedBefore } },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    take: MOST_AT_ONCE,
    select: { id: true, academyId: true, playerId: true, userId: true, state: true, byteLength: true },
  });
  return rows.map((row) => ({ ...row, byteLength: Number(row.byteLength) }));
}

/** Those among some uploads whose bytes have a reason to be here. */
export async function readAwaited(db: Database, uploadIds: readonly Id[]): Promise<ReadonlySet<Id>> {
  const where = { id: { in: [...uploadIds] }, OR: [{ state: { in: ["receiving", "checking"] } }, { canRetry: true }] };
  return new Set((await db.upload.findMany({ where, select: { id: true } })).map(({ id }) => id));
}
