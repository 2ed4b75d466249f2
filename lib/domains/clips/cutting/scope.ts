import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";

/** Whether somebody worked on a clip: then it is not taken away when swings are cut out of it. A suggestion is nobody's work. */
export async function isWorkedOn(db: Database, { academyId, id: clipId, swingId }: { readonly academyId: Id; readonly id: Id; readonly swingId: Id }): Promise<boolean> {
  const swing = await db.swing.findUnique({
    where: { id: swingId },
    select: { _count: { select: { clips: true, observations: true, models: true, ownBests: true, events: { where: { source: { in: ["placed", "aside"] } } } } } },
  });
  const clip = await db.clip.findFirst({
    where: { id: clipId, academyId },
    select: { _count: { select: { points: { where: { source: "placed" } }, unseenPoints: true, marks: { where: { removedAt: null } }, notes: true, answers: true } } },
  });
  const { clips = 0, ...work } = swing?._count ?? {};
  return clips > 1 || [...Object.values(work), ...Object.values(clip?._count ?? {})].some((count) => count > 0);
}
