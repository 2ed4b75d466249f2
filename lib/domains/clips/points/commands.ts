import type { z } from "zod";
import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { InvalidError } from "@/lib/core/errors";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import { holdPoints, insideClip, refuseOvertakenPoints, tellChanged } from "../commands";
import type { ClipSubject } from "../policy";
import type { placePointsForm, swapPointsForm } from "./schema";

type Worked = Granted<ClipSubject, "clip.work-on">;

/**
 * Exchanges front and back of some pairs on a frame: what a coach said of them, suggestions, and which cannot be seen. Done twice
 * all is as it was. A suggestion keeps who exchanged it: it is no longer the model's own word, so the model does not replace it and is not judged by it.
 */
export async function swapPoints(tx: Transaction, actor: Person, clip: Worked, { frameIndex, pairs, were }: z.infer<typeof swapPointsForm>): Promise<void> {
  insideClip(clip, frameIndex);
  // Held also when nobody says what stood there: two exchanges at the same time come one after the other.
  await holdPoints(tx, clip);
  await refuseOvertakenPoints(tx, actor, clip, frameIndex, were);
  const other = new Map<string, string>(pairs.flatMap((pair) => [[`${pair}_f`, `${pair}_b`], [`${pair}_b`, `${pair}_f`]] as const));
  const where = { academyId: clip.academyId, clipId: clip.id, frameIndex, point: { in: [...other.keys()] } };
  const [points, unseen] = [await tx.clipPoint.findMany({ where }), await tx.unseenPoint.findMany({ where })];
  await tx.clipPoint.deleteMany({ where });
  await tx.unseenPoint.deleteMany({ where });
  const renamed = <Row extends { point: string }>(row: Row): Row => ({ ...row, point: other.get(row.point) ?? row.point });
  const said = { setById: actor.userId, setAt: now() };
  await tx.clipPoint.createMany({ data: points.map((row) => (row.source === "placed" ? { ...renamed(row), ...said } : { ...renamed(row), setById: actor.userId })) });
  await tx.unseenPoint.createMany({ data: unseen.map((row) => ({ ...renamed(row), ...said })) });
  await tellChanged(tx, clip);
}

/** Places several points of a frame, or forgets what a coach said of them: all of it or nothing. */
export async function placePoints(tx: Transaction, actor: Person, clip: Worked, { frameIndex, points }: z.infer<typeof placePointsForm>): Promise<void> {
  insideClip(clip, frameIndex);
  const file = await tx.mediaFile.findUniqueOrThrow({ where: { id: clip.fileId }, select: { widthPx: true, heightPx: true } });
  const isInside = ({ x, y }: { x: number; y: number }) => x >= 0 && x <= file.widthPx && y >= 0 && y <= file.heightPx;
  if (!points.every(({ place }) => place === null || isInside(place))) throw new InvalidError("One of these places lies outside the picture. None was kept.");
  await refuseOvertakenPoints(tx, actor, clip, frameIndex, points);
  const where = { academyId: clip.academyId, clipId: clip.id, frameIndex, point: { in: points.map(({ point }) => point) } };
  await tx.clipPoint.deleteMany({ where: { ...where, source: "placed" } });
  await tx.unseenPoint.deleteMany({ where });
  const said = { source: "placed", setById: actor.userId, setAt: now() };
  await tx.clipPoint.createMany({
    data: points.flatMap(({ point, place }) => (place ? [{ academyId: clip.academyId, clipId: clip.id, frameIndex, point, xPx: place.x, yPx: place.y, ...said }] : [])),
  });
  await tellChanged(tx, clip);
}
