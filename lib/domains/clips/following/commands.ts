import type { z } from "zod";
import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { InvalidError } from "@/lib/core/errors";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import { holdPoints, insideClip, refuseOvertakenPlaces, tellChanged } from "../commands";
import type { ClipSubject } from "../policy";
import type { placeFollowedForm } from "./schema";

/** Takes what was followed through the pictures on several frames, or forgets it: all of it or nothing. */
export async function placeFollowed(tx: Transaction, actor: Person, clip: Granted<ClipSubject, "clip.work-on">, { places }: z.infer<typeof placeFollowedForm>): Promise<void> {
  for (const { frameIndex } of places) insideClip(clip, frameIndex);
  const file = await tx.mediaFile.findUniqueOrThrow({ where: { id: clip.fileId }, select: { widthPx: true, heightPx: true } });
  const isInside = ({ x, y }: { x: number; y: number }) => x >= 0 && x <= file.widthPx && y >= 0 && y <= file.heightPx;
  if (!places.every(({ place }) => place === null || isInside(place))) throw new InvalidError("One of these places lies outside the picture. None was kept.");
  await holdPoints(tx, clip);
  await refuseOvertakenPlaces(tx, actor, clip, places);
  const { academyId, id: clipId } = clip;
  const where = { academyId, clipId, OR: places.map(({ frameIndex, point }) => ({ frameIndex, point })) };
  await tx.clipPoint.deleteMany({ where: { ...where, source: "placed" } });
  await tx.unseenPoint.deleteMany({ where });
  const said = { academyId, clipId, source: "placed", setById: actor.userId, setAt: now() };
  await tx.clipPoint.createMany({
    data: places.flatMap(({ frameIndex, point, place }) => (place ? [{ ...said, frameIndex, point, xPx: place.x, yPx: place.y, followedSdPx: place.followedSdPx }] : [])),
  });
  await tellChanged(tx, clip);
}
