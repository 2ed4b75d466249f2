import type { Id } from "@/lib/core/ids";
import type { Database, Prisma } from "@/lib/platform/database";
import { lineUpEvents } from "../rules";
import { eventViews, isForced, timingOf } from "../scope";
import type { CameraView, PointId } from "../view";
import { cropWindow, sheetFrames } from "./rules";
import type { PicturedClip } from "./view";

const timedSelect = { id: true, view: true, realSecondsPerFileSecond: true, timeBasis: true, firstFrame: true, lastFrame: true, file: { select: { frameTimes: true } } } satisfies Prisma.ClipSelect;
const clipSelect = {
  ...timedSelect, swingId: true, isMirrored: true,
  file: { select: { frameTimes: true, widthPx: true, heightPx: true } },
  swing: { select: { events: { orderBy: { event: "asc" } }, clips: { orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: timedSelect } } },
} satisfies Prisma.ClipSelect;

/** Some clips of an academy with what their stills are cut by, in the order asked for: two questions to the database. */
export async function readPicturedClips(db: Database, academyId: Id, clipIds: readonly Id[]): Promise<PicturedClip[]> {
  const rows = await db.clip.findMany({ where: { academyId, id: { in: [...clipIds] } }, select: clipSelect });
  const clips = rows.map((row) => {
    const { frameTimes, timeBasis } = timingOf(row);
    const { id, swingId, view, isMirrored, realSecondsPerFileSecond, file } = row;
    const events = lineUpEvents({ frameTimes, realSecondsPerFileSecond, timeBasis }, eventViews(row.swing, row));
    const { widthPx, heightPx } = file;
    return { id, swingId, view: view as CameraView, isMirrored, widthPx, heightPx, frameTimes, realSecondsPerFileSecond, timeBasis, frameCount: frameTimes.ticks.length, events };
  });
  const wanted = clips.flatMap((clip) => sheetFrames(clip).map((frameIndex) => ({ clipId: clip.id, frameIndex })));
  const points = await db.clipPoint.findMany({ where: { academyId, OR: wanted }, orderBy: [{ clipId: "asc" }, { frameIndex: "asc" }, { point: "asc" }] });
  const pictured = clips.map((clip): PicturedClip => {
    const own = points.filter(({ clipId }) => clipId === clip.id);
    const inForce = own.filter(isForced(own)).map(({ frameIndex, point, source, xPx, yPx }) => ({
      frameIndex, point: point as PointId, x: xPx, y: yPx, source: source === "placed" ? ("coach" as const) : ("suggested" as const),
    }));
    return { ...clip, points: inForce, window: cropWindow({ width: clip.widthPx, height: clip.heightPx }, inForce) };
  });
  return clipIds.flatMap((id) => pictured.find((clip) => clip.id === id) ?? []);
}

/** A swing's clips with the stretches of files from which their stills are cut. */
export async function readStillFiles(db: Database, academyId: Id, swingId: Id): Promise<{ id: Id; academyId: Id; fileId: Id; firstFrame: number; lastFrame: number }[]> {
  return db.clip.findMany({ where: { academyId, swingId }, orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true, academyId: true, fileId: true, firstFrame: true, lastFrame: true } });
}

/** Which stills of some clips the worker has cut, by clip. */
export async function readKeptStills(db: Database, academyId: Id, clipIds: readonly Id[]): Promise<ReadonlyMap<Id, { readonly window: string; readonly frames: readonly number[] }>> {
  const rows = await db.clipStills.findMany({ where: { academyId, clipId: { in: [...clipIds] } }, select: { clipId: true, window: true, frames: true } });
  return new Map(rows.map(({ clipId, ...row }) => [clipId, row]));
}
