import { dayOf } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import type { CameraView } from "@/lib/domains/clips/view";
import type { SwingOnDay } from "@/lib/measure/several/comparable-swings";
import type { Database, Prisma } from "@/lib/platform/database";
import { swingSelect } from "../scope";

/** A swing as the sheet chooses among them. */
export interface SheetSwing extends SwingOnDay {
  readonly clips: readonly { readonly id: Id; readonly view: CameraView }[];
}

/** Among so many swings of a side one chooses; older ones are reached through their own sheet. */
const MOST_LOOKED_AT = 120;

const sheetSwing = ({ filmedOn, clips, ...row }: Prisma.SwingGetPayload<{ select: typeof swingSelect }>): SheetSwing => ({
  ...row, day: dayOf(filmedOn), clips: clips.map(({ id, view }) => ({ id, view: view as CameraView })),
});

/** One swing, whose it is, and the swings of the same player and side, newest first. */
export async function readSheetSwings(db: Database, academyId: Id, swingId: Id) {
  const { player, ...row } = await db.swing.findUniqueOrThrow({
    where: { id: swingId },
    select: { ...swingSelect, player: { select: { givenName: true, familyName: true, sport: true, permits: { where: { use: "lesson" }, select: { validUntil: true } } } } },
  });
  const rows = await db.swing.findMany({
    where: { academyId, playerId: row.playerId, side: row.side },
    orderBy: [{ filmedOn: "desc" }, { createdAt: "desc" }, { id: "asc" }],
    take: MOST_LOOKED_AT,
    select: swingSelect,
  });
  return { swing: sheetSwing(row), player, newestFirst: rows.map(sheetSwing) };
}

/** The calls in force on some swings. */
export async function readCalls(db: Database, academyId: Id, swingIds: readonly Id[]) {
  return db.observation.findMany({
    where: { academyId, swingId: { in: [...swingIds] }, replacedAt: null },
    orderBy: [{ calledAt: "asc" }, { id: "asc" }],
    select: { swingId: true, faultId: true, state: true, calledAt: true },
  });
}

/** The condition of what is in force: neither replaced nor taken back. */
export const ownBestInForce = { replacedById: null, takenBackAt: null } satisfies Prisma.OwnBestWhereInput;

/** The swing kept as own best for a side and a view; null when none is. */
export async function findOwnBest(db: Database, where: { academyId: Id; playerId: Id; side: string; view: string }) {
  return db.ownBest.findFirst({ where: { ...where, ...ownBestInForce }, select: { id: true, swingId: true, clipId: true, swing: { select: swingSelect } } }).then(
    (row) => row && { ...row, swing: sheetSwing(row.swing) },
  );
}
