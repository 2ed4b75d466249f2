import { dayOf } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import { permitSelect } from "@/lib/domains/clips/scope";
import { ownBestInForce } from "@/lib/domains/observations/sheet/scope";
import type { Database } from "@/lib/platform/database";

/** The player as the page needs one, with whether filming is permitted on a day. */
export async function readOwner(db: Database, academyId: Id, playerId: Id, today: string) {
  const { permits, sides, birthDate, ...row } = await db.player.findUniqueOrThrow({
    where: { academyId_id: { academyId, id: playerId } },
    select: { givenName: true, birthDate: true, location: { select: { timeZone: true } }, sides: { orderBy: { side: "desc" }, select: { side: true } }, ...permitSelect(today) },
  });
  return { ...row, birthDate: dayOf(birthDate), sides: sides.map(({ side }) => side as "right" | "left"), isPermitted: permits.length > 0 };
}

/** The newest note that was sent, of one side or of any, with the fault that it works on. */
export async function findNewestNote(db: Database, academyId: Id, playerId: Id, side?: string) {
  return db.note.findFirst({
    where: { academyId, playerId, sentAt: { not: null }, ...(side ? { side } : {}) },
    orderBy: [{ sentAt: "desc" }, { id: "asc" }],
    select: { side: true, oneThing: true, plan: { select: { focus: { select: { faultId: true } } } } },
  });
}

const MOST_CLIPS = 60;

/** The clips of a side of which the family may see stills: those of sent notes, own bests, and what it sent itself. */
export async function readShownClipIds(db: Database, academyId: Id, playerId: Id, side: string): Promise<readonly { readonly clipId: Id; readonly day: string }[]> {
  const rows = await db.clip.findMany({
    where: {
      academyId, playerId, swing: { side },
      OR: [{ notes: { some: { playerId, sentAt: { not: null } } } }, { ownBests: { some: { playerId, ...ownBestInForce } } }, { uploads: { some: { playerId, sent: { isNot: null } } } }],
    },
    orderBy: [{ swing: { filmedOn: "desc" } }, { createdAt: "desc" }, { id: "asc" }],
    take: MOST_CLIPS,
    select: { id: true, swing: { select: { filmedOn: true } } },
  });
  return rows.map(({ id, swing }) => ({ clipId: id, day: dayOf(swing.filmedOn) }));
}

/** The newest swing of a side that a checkpoint was read on; null when none was. */
export async function findNewestRead(db: Database, academyId: Id, playerId: Id, side: string, checkpointId: string) {
  return db.swing.findFirst({
    where: { academyId, playerId, side, readings: { some: { checkpointId, value: { not: null } } } },
    orderBy: [{ filmedOn: "desc" }, { createdAt: "desc" }, { id: "asc" }],
    select: { id: true, academyId: true, playerId: true },
  });
}
