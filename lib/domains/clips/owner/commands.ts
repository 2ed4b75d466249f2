import { writeAudit } from "@/lib/access/audit";
import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError, NotFoundError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import type { Transaction } from "@/lib/platform/database";
import { MOST_CLIPS_OF_A_SWING, tellChanged } from "../commands";
import type { ClipOwner, SwingSubject, UploadSubject } from "../policy";
import type { SIDES } from "../schema";
import { lessonPermitOn } from "../scope";
import { forgetSent } from "../sent/commands";
import { dropSuggestions, wantSuggestions } from "../suggested/commands";
import type { MovedSwing } from "./schema";

type Side = (typeof SIDES)[number];
/** A mark that another clip's mark of the same event took the place of when two swings were joined; it comes back when they are parted. */
const ASIDE = "aside";

/** What is asked of the player who gets it: still here, consent to film in force, bats from a side. @returns the side */
export async function sideAt(tx: Transaction, actor: Person, { academyId, playerId }: ClipOwner, wanted: Side): Promise<Side> {
  const player = await tx.player.findFirst({
    where: { id: playerId, academyId },
    select: { givenName: true, leftAt: true, sides: { select: { side: true }, orderBy: { side: "desc" } }, _count: { select: { permits: { where: lessonPermitOn(actor.today) } } } },
  });
  if (!player) throw new NotFoundError("player");
  if (player.leftAt) throw new ConflictError(`${player.givenName} has left. Nothing was changed.`);
  if (player._count.permits === 0) throw new ConflictError(`No consent to film ${player.givenName} for lessons is in force. Nothing was changed. The office can record one.`);
  const side = [...player.sides.map((it) => it.side as Side)].sort((a, b) => Number(b === wanted) - Number(a === wanted))[0];
  if (!side) throw new ConflictError(`Nobody noted from which side ${player.givenName} bats. Nothing was changed.`);
  return side;
}

/**
 * Gives a swing with all its clips, events, points, drawings and calls to the player whose it is. What of it stood at the first player goes:
 * a swing kept as own best, a still in a note. The readings are made anew, since age and side are another's.
 */
export async function moveSwing(tx: Transaction, actor: Person, swing: Granted<SwingSubject, "swing.move">, to: Granted<ClipOwner, "clip.add">, wantedSide?: Side): Promise<MovedSwing> {
  const { academyId, id: swingId, playerId: fromPlayerId } = swing;
  const { playerId } = to;
  const row = await heldSwing(tx, swingId);
  if (row.playerId !== fromPlayerId) throw new ConflictError("Somebody has given this swing to another player meanwhile. Nothing was changed.");
  if (playerId === fromPlayerId) throw new ConflictError("This swing is that player's already. Nothing was changed.");
  await refuseModel(tx, academyId, swingId);
  const fromSide = row.side as Side;
  const side = await sideAt(tx, actor, to, wantedSide ?? fromSide);
  const ofSwing = { academyId, swingId };
  await tx.$executeRaw`SET CONSTRAINTS ALL DEFERRED`;
  // A note or an own best of the first player may not lead to another child's pictures, not for a moment: it goes in the same transaction.
  await tx.ownBest.deleteMany({ where: ofSwing });
  await tx.note.updateMany({ where: { academyId, clip: { swingId }, playerId: { not: playerId } }, data: { clipId: null } });
  await forgetSent(tx, academyId, { OR: [{ swingId }, { clip: { swingId } }] });
  await tx.sentClip.updateMany({ where: { academyId, clip: { swingId } }, data: { clipId: null, frameIndex: null } });
  await tx.swing.update({ where: { id: swingId }, data: { playerId, side } });
  await tx.clip.updateMany({ where: ofSwing, data: { playerId } });
  await tx.upload.updateMany({ where: { academyId, OR: [{ swingId }, { clip: { swingId } }] }, data: { playerId } });
  await tx.modelSwing.updateMany({ where: ofSwing, data: { playerId } });
  await tx.reading.deleteMany({ where: ofSwing });
  await tx.$executeRaw`SET CONSTRAINTS ALL IMMEDIATE`;
  await writeAudit(tx, actor, "clips.swing-moved-from", academyId, fromPlayerId);
  await writeAudit(tx, actor, "clips.swing-moved-to", academyId, playerId);
  await tellChanged(tx, { swingId });
  // Which joint is front was told by the side it was thought to be taken from.
  for (const clip of side === fromSide ? [] : await tx.clip.findMany({ where: ofSwing, select: { id: true } })) {
    await dropSuggestions(tx, { academyId, id: clip.id });
    await wantSuggestions(tx, clip);
  }
  return { swingId, fromPlayerId, fromSide };
}

/** Gives a video that has not become a clip yet to another player; the worker finds it there. */
export async function moveUpload(tx: Transaction, actor: Person, upload: Granted<UploadSubject, "upload.move">, to: Granted<ClipOwner, "clip.add">, wantedSide?: Side): Promise<void> {
  const { academyId, id } = upload;
  const { playerId } = to;
  await tx.$queryRaw`SELECT 1 FROM "Upload" WHERE "id" = ${id}::uuid FOR UPDATE`;
  const row = await tx.upload.findUniqueOrThrow({ where: { id } });
  if (row.state !== "receiving" && row.state !== "checking") throw new ConflictError("This sending has ended already. Nothing was changed.");
  const facts = row.facts as { side: Side };
  const side = await sideAt(tx, actor, to, wantedSide ?? facts.side);
  if (row.playerId !== playerId) await forgetSent(tx, academyId, { id });
  await tx.upload.update({ where: { id }, data: { playerId, swingId: row.playerId === playerId ? row.swingId : null, facts: { ...facts, side } } });
  await writeAudit(tx, actor, "clips.swing-moved-from", academyId, row.playerId);
  await writeAudit(tx, actor, "clips.swing-moved-to", academyId, playerId);
}

/**
 * Makes two swings of a player one: the clips of the first become cameras of the second. Of an event that both have, the second's mark stands and
 * the other is set aside; of a fault that the same coach called on both, the later call stands.
 */
export async function joinSwings(tx: Transaction, swing: Granted<SwingSubject, "swing.sort-clips">, into: Granted<SwingSubject, "swing.sort-clips">): Promise<void> {
  const { academyId, id: swingId } = swing;
  if (into.id === swingId) throw new ConflictError("That is the same swing. Nothing was changed.");
  const [first, second] = await bothHeld(tx, swingId, into.id);
  if (first.playerId !== second.playerId || first.side !== second.side) throw new ConflictError("Only swings of one player from one side can be joined. Nothing was changed.");
  await refuseModel(tx, academyId, swingId);
  if (first.clipCount + second.clipCount > MOST_CLIPS_OF_A_SWING) throw new ConflictError(`Together they would have more than ${MOST_CLIPS_OF_A_SWING} clips, which is the most. Nothing was changed.`);
  await tx.$executeRaw`SET CONSTRAINTS ALL DEFERRED`;
  const theirs = await tx.swingEvent.findMany({ where: { academyId, swingId: into.id, source: "placed", event: { not: "contact" } }, select: { event: true } });
  const placed = theirs.map(({ event }) => event);
  await tx.swingEvent.deleteMany({ where: { academyId, swingId, source: ASIDE, event: { in: placed } } });
  await tx.swingEvent.updateMany({ where: { academyId, swingId, source: "placed", event: { in: placed } }, data: { source: ASIDE } });
  await dropDoubles(tx, academyId, swingId, into.id);
  const to = { swingId: into.id };
  await tx.swingEvent.updateMany({ where: { academyId, swingId }, data: to });
  await joinCalls(tx, academyId, swingId, into.id);
  await tx.ownBest.updateMany({ where: { academyId, swingId }, data: to });
  await tx.upload.updateMany({ where: { academyId, swingId }, data: to });
  await tx.modelSwing.updateMany({ where: { academyId, swingId }, data: to });
  await tx.reading.deleteMany({ where: { academyId, swingId } });
  await tx.clip.updateMany({ where: { academyId, swingId }, data: to });
  await tx.swing.delete({ where: { id: swingId } });
  await tx.$executeRaw`SET CONSTRAINTS ALL IMMEDIATE`;
  await tellChanged(tx, { swingId: into.id });
}

/** A swing has one of each suggested or set-aside event but contact: where the other has it too, the one that joins goes. */
async function dropDoubles(tx: Transaction, academyId: Id, swingId: Id, intoId: Id): Promise<void> {
  const there = await tx.swingEvent.findMany({ where: { academyId, swingId: intoId, source: { not: "placed" }, event: { not: "contact" } }, select: { event: true, source: true } });
  for (const { event, source } of there) await tx.swingEvent.deleteMany({ where: { academyId, swingId, event, source } });
}

async function joinCalls(tx: Transaction, academyId: Id, swingId: Id, intoId: Id): Promise<void> {
  await tx.$executeRaw`
    UPDATE "Observation" o SET "replacedAt" = now() FROM "Observation" p
    WHERE o."academyId" = ${academyId}::uuid AND p."academyId" = o."academyId" AND o."replacedAt" IS NULL AND p."replacedAt" IS NULL
      AND o."swingId" IN (${swingId}::uuid, ${intoId}::uuid) AND p."swingId" IN (${swingId}::uuid, ${intoId}::uuid) AND o."swingId" <> p."swingId"
      AND o."faultId" = p."faultId" AND o."calledById" = p."calledById" AND (o."calledAt", o."id") < (p."calledAt", p."id")`;
  await tx.observation.updateMany({ where: { academyId, swingId }, data: { swingId: intoId } });
}

/** Makes a clip a swing of its own again, with the facts of the one it leaves; its own marks, and the calls that were made on it, go with it. */
export async function partClip(tx: Transaction, actor: Person, swing: Granted<SwingSubject, "swing.sort-clips">, clipId: Id): Promise<Id> {
  const { academyId, id: swingId } = swing;
  const row = await heldSwing(tx, swingId);
  const clip = await tx.clip.findFirst({ where: { id: clipId, academyId, swingId }, select: { id: true } });
  if (!clip) throw new NotFoundError("clip");
  if (row.clipCount < 2) throw new ConflictError("It is the swing's only clip. Nothing was changed.");
  await refuseModel(tx, academyId, swingId);
  const whole = await tx.swing.findUniqueOrThrow({ where: { id: swingId } });
  const own = newId();
  await tx.$executeRaw`SET CONSTRAINTS ALL DEFERRED`;
  await tx.swing.create({ data: { ...whole, id: own, createdById: actor.userId, createdAt: undefined } });
  await tx.clip.update({ where: { id: clipId }, data: { swingId: own } });
  await tx.swingEvent.updateMany({ where: { academyId, clipId }, data: { swingId: own } });
  const placed = await tx.swingEvent.findMany({ where: { academyId, clipId, source: "placed" }, select: { event: true } });
  await tx.swingEvent.updateMany({ where: { academyId, clipId, source: ASIDE, event: { notIn: placed.map(({ event }) => event) } }, data: { source: "placed" } });
  await tx.observation.updateMany({ where: { academyId, swingId, clipId }, data: { swingId: own } });
  await tx.ownBest.updateMany({ where: { academyId, swingId, clipId }, data: { swingId: own } });
  await tx.upload.updateMany({ where: { academyId, clipId, swingId }, data: { swingId: null } });
  await tx.reading.deleteMany({ where: { academyId, clipId } });
  await tx.$executeRaw`SET CONSTRAINTS ALL IMMEDIATE`;
  await tellChanged(tx, { swingId });
  await tellChanged(tx, { swingId: own });
  return own;
}

interface HeldSwing {
  readonly playerId: Id;
  readonly side: string;
  readonly clipCount: number;
}

async function heldSwing(tx: Transaction, swingId: Id): Promise<HeldSwing> {
  await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${swingId}::uuid FOR UPDATE`;
  const row = await tx.swing.findUnique({ where: { id: swingId }, select: { playerId: true, side: true, _count: { select: { clips: true } } } });
  if (!row) throw new NotFoundError("swing");
  return { playerId: row.playerId, side: row.side, clipCount: row._count.clips };
}

/** Held in one order, whoever asks: two who join the same two swings the other way round wait and do not block each other. */
async function bothHeld(tx: Transaction, a: Id, b: Id): Promise<readonly [HeldSwing, HeldSwing]> {
  const held = new Map<Id, HeldSwing>();
  for (const id of [a, b].sort()) held.set(id, await heldSwing(tx, id));
  return [held.get(a), held.get(b)] as readonly [HeldSwing, HeldSwing];
}

/** @throws ConflictError when the swing is shown as a model: its right and its label are the hitter's */
async function refuseModel(tx: Transaction, academyId: Id, swingId: Id): Promise<void> {
  const count = await tx.modelSwing.count({ where: { academyId, swingId, withdrawnAt: null } });
  if (count > 0) throw new ConflictError("This swing is kept as a model. Withdraw the model first. Nothing was changed.");
}
