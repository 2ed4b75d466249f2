import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError, NotFoundError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import { findOwnBest, ownBestInForce } from "./scope";

type Judged = Granted<PlayerSubject, "reasoning.judge">;

/** Keeps a clip's swing as the player's own best for its side and view; the one before makes room and can come back. */
export async function keepOwnBest(tx: Transaction, actor: Person, player: Judged, clipId: Id): Promise<{ ownBestId: Id; message: string }> {
  const { academyId, id: playerId } = player;
  const clip = await tx.clip.findFirst({ where: { id: clipId, academyId, playerId }, select: { view: true, swingId: true, swing: { select: { side: true } } } });
  if (!clip) throw new NotFoundError("clip");
  const { view, swingId, swing: { side } } = clip;
  await hold(tx, academyId, playerId, side);
  const before = await findOwnBest(tx, { academyId, playerId, side, view });
  if (before?.swingId === swingId) return { ownBestId: before.id, message: "This swing is kept as own best already." };
  const ownBestId = newId();
  if (before) await tx.ownBest.update({ where: { id: before.id }, data: { replacedById: ownBestId } });
  await tx.ownBest.create({ data: { id: ownBestId, academyId, playerId, side, view, swingId, clipId, keptById: actor.userId, keptAt: now() } });
  return { ownBestId, message: before ? "Kept as own best. It takes the place of the one before." : "Kept as own best." };
}

/**
 * Takes back what was kept as own best; the one before it is in force again.
 * @throws ConflictError when another one is kept by now
 */
export async function takeBackOwnBest(tx: Transaction, player: Judged, ownBestId: Id): Promise<string> {
  const { academyId, id: playerId } = player;
  const known = await tx.ownBest.findFirst({ where: { id: ownBestId, academyId, playerId }, select: { side: true } });
  if (!known) throw new NotFoundError("own best");
  await hold(tx, academyId, playerId, known.side);
  const { count } = await tx.ownBest.updateMany({ where: { id: ownBestId, ...ownBestInForce }, data: { takenBackAt: now() } });
  if (count === 0) throw new ConflictError("Another swing is kept as own best by now. It was left as it is.");
  const { count: returned } = await tx.ownBest.updateMany({ where: { academyId, playerId, replacedById: ownBestId, takenBackAt: null }, data: { replacedById: null } });
  return returned > 0 ? "Taken back. The one before is the own best again." : "Taken back. No swing is kept as own best.";
}

/** Two coaches who choose at once choose one after the other. */
async function hold(tx: Transaction, academyId: Id, playerId: Id, side: string): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM "BattingSide" WHERE "academyId" = ${academyId}::uuid AND "playerId" = ${playerId}::uuid AND "side" = ${side} FOR UPDATE`;
}
