import type { Id } from "@/lib/core/ids";
import { dayOf, dayValue } from "@/lib/core/days";
import type { SwingSubject } from "@/lib/domains/clips/policy";
import type { Database, Prisma } from "@/lib/platform/database";
import type { SwingOnDay } from "@/lib/measure/several/comparable-swings";

const DAY_MS = 86_400_000;
/** Of so many swings the comparable ones are chosen: a heavy day of filming and the weeks before it. */
const MOST_LOOKED_AT = 120;

const takenSelect = {
  id: true, playerId: true, side: true, swingKind: true, task: true, effort: true, pitchHeight: true, pitchSide: true, pitchSpeed: true, batClass: true, filmedOn: true,
} satisfies Prisma.SwingSelect;

const taken = ({ filmedOn, ...row }: Prisma.SwingGetPayload<{ select: typeof takenSelect }>): SwingOnDay => ({ ...row, day: dayOf(filmedOn) });

/** One swing and the swings of its player and side in the days up to it, newest first: how each was taken. */
export async function readSwingsUpTo(db: Database, { id, academyId, playerId }: SwingSubject, withinDays: number): Promise<{ swing: SwingOnDay; newestFirst: SwingOnDay[] }> {
  const swing = taken(await db.swing.findUniqueOrThrow({ where: { id }, select: takenSelect }));
  const first = dayOf(new Date(Date.parse(swing.day) - withinDays * DAY_MS));
  const rows = await db.swing.findMany({
    where: { academyId, playerId, side: swing.side, filmedOn: { gte: dayValue(first), lte: dayValue(swing.day) } },
    orderBy: [{ filmedOn: "desc" }, { createdAt: "desc" }, { id: "asc" }],
    take: MOST_LOOKED_AT,
    select: takenSelect,
  });
  return { swing, newestFirst: rows.map(taken) };
}

const keptSelect = {
  swingId: true, checkpointId: true, formulaId: true, formulaVersion: true, value: true, sd: true, verdict: true, isGrey: true, body: true,
  clip: { select: { view: true, isMirrored: true, cameraOffDeg: true, fileId: true, hasCameraMoved: true } },
} satisfies Prisma.ReadingSelect;

export type KeptReading = Prisma.ReadingGetPayload<{ select: typeof keptSelect }>;

/** The kept readings of some swings, of one checkpoint or of all, with how each clip was filmed. */
export async function readKeptReadings(db: Database, academyId: Id, swingIds: readonly Id[], checkpointId?: string): Promise<KeptReading[]> {
  return db.reading.findMany({
    where: { academyId, swingId: { in: [...swingIds] }, checkpointId },
    orderBy: [{ checkpointId: "asc" }, { swingId: "asc" }, { clipId: "asc" }],
    select: keptSelect,
  });
}

const MOST_TO_CHOOSE = 60;

/** The player's newest swings with the clips of each, as one chooses what to lay beside a swing: both sides, however long ago. */
export async function readSwingsToChoose(db: Database, { academyId, playerId }: SwingSubject) {
  const rows = await db.swing.findMany({
    where: { academyId, playerId },
    orderBy: [{ filmedOn: "desc" }, { createdAt: "desc" }, { id: "asc" }],
    take: MOST_TO_CHOOSE,
    select: {
      ...takenSelect,
      events: { where: { event: "contact" }, select: { clipId: true } },
      clips: { orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true, view: true } },
    },
  });
  return rows.map(({ clips, events, ...row }) => ({ ...taken(row), clips: clips.map((it) => ({ ...it, hasContact: events.some(({ clipId }) => clipId === it.id) })) }));
}
