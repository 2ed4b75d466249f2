import { dayValue } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import type { UploadSubject } from "../policy";
import type { ArrivingSubject } from "./policy";

/** An upload of the academy with whether its film may be shown today. */
export async function findArrivingSubject(db: Database, academyId: Id, uploadId: Id, today: string): Promise<ArrivingSubject | null> {
  const row = await db.upload.findFirst({
    where: { id: uploadId, academyId, hasPoster: true, state: "checking" },
    select: {
      id: true, academyId: true, playerId: true, userId: true, state: true, byteLength: true,
      player: { select: { permits: { where: { use: "lesson", validUntil: { gt: dayValue(today) } }, select: { use: true } } } },
    },
  });
  if (!row) return null;
  const { player, byteLength, ...upload } = row;
  return { ...upload, byteLength: Number(byteLength), isPermitted: player.permits.length > 0 };
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
