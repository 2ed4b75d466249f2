import type { z } from "zod";
import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { dayOf, dayValue } from "@/lib/core/days";
import { ConflictError, InvalidError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { isAdultOn } from "@/lib/domains/roster/rules";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import type { SwingSubject } from "../policy";
import type { ModelSubject } from "./policy";
import { labelProblem, mayUndo, rightProblem, UNDO_MINUTES } from "./rules";
import type { editModelForm, keepModelForm, ModelFields } from "./schema";
import { draftSelect, hindranceOn } from "./scope";

type Changed = Granted<ModelSubject, "model.change">;

const NOTHING = "Nothing was changed.";

/** The columns of what was typed. @throws InvalidError for a label or a right that cannot be */
async function columnsOf(tx: Transaction, actor: Person, playerId: Id, { body, rightUntil, ...fields }: ModelFields) {
  const hitter = await tx.player.findUniqueOrThrow({ where: { id: playerId }, select: { givenName: true, familyName: true, birthDate: true } });
  const label = labelProblem(fields.label, hitter);
  const right = rightProblem({ rightBasis: fields.rightBasis, rightUntil }, actor.today, !isAdultOn(dayOf(hitter.birthDate), actor.today));
  if (label || right) throw new InvalidError(`${label ?? Object.values(right ?? {})[0]} ${NOTHING}`, { ...(label ? { label } : {}), ...right });
  return { ...fields, isAdult: body === "grown", rightUntil: dayValue(rightUntil), recordedById: actor.userId, recordedAt: now() };
}

/** Throws where the swing cannot be shown as a model: no consent, no contact, kept already. */
async function refuseHindered(tx: Transaction, actor: Person, swingId: Id): Promise<void> {
  const hindrance = hindranceOn(await tx.swing.findUniqueOrThrow({ where: { id: swingId }, select: draftSelect }), actor.today);
  if (hindrance) throw new ConflictError(`${hindrance} ${NOTHING}`);
}

/** Keeps a swing as a model with the right to show it. @returns the model's id */
export async function keepModel(tx: Transaction, actor: Person, swing: Granted<SwingSubject, "swing.keep-as-model">, input: z.infer<typeof keepModelForm>): Promise<Id> {
  const { swingId, ...fields } = input;
  // Whoever keeps the same swing at the same time waits here, and is told that it is kept.
  await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${swing.id}::uuid FOR UPDATE`;
  await refuseHindered(tx, actor, swing.id);
  const { academyId, playerId } = swing;
  const id = newId();
  await tx.modelSwing.create({ data: { id, academyId, playerId, swingId, ...(await columnsOf(tx, actor, playerId, fields)), keptAt: now() } });
  return id;
}

/** Changes tags and right; who changes them has recorded the right anew. @throws ConflictError once it was withdrawn */
export async function editModel(tx: Transaction, actor: Person, model: Changed, input: z.infer<typeof editModelForm>): Promise<void> {
  const { modelId, ...fields } = input;
  const data = await columnsOf(tx, actor, model.playerId, fields);
  const { count } = await tx.modelSwing.updateMany({ where: { id: modelId, withdrawnAt: null }, data });
  if (count !== 1) throw new ConflictError(`This model was withdrawn. ${NOTHING}`);
}

/** From now on it is shown nowhere; twice is once. */
export async function withdrawModel(tx: Transaction, actor: Person, model: Changed): Promise<void> {
  await tx.modelSwing.updateMany({ where: { id: model.id, withdrawnAt: null }, data: { withdrawnAt: now(), withdrawnById: actor.userId } });
}

/** Takes a withdrawal back. @throws ConflictError when that was too long ago, or the swing cannot be shown now */
export async function restoreModel(tx: Transaction, actor: Person, model: Changed): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${model.swingId}::uuid FOR UPDATE`;
  const { withdrawnAt } = await tx.modelSwing.findUniqueOrThrow({ where: { id: model.id }, select: { withdrawnAt: true } });
  if (withdrawnAt === null) return;
  if (!mayUndo(withdrawnAt, now())) throw new ConflictError(`It was withdrawn more than ${UNDO_MINUTES} minutes ago. Keep the swing as a model anew, with its right. ${NOTHING}`);
  await refuseHindered(tx, actor, model.swingId);
  await tx.modelSwing.update({ where: { id: model.id }, data: { withdrawnAt: null, withdrawnById: null } });
}
