import type { Person } from "@/lib/access/actor";
import { ConflictError, InvalidError } from "@/lib/core/errors";
import { dayValue } from "@/lib/core/days";
import { newId } from "@/lib/core/ids";
import type { Side } from "@/lib/domains/roster/rules";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import { AT_ONCE, callableFault, orConflict, settle, type Judged } from "../commands";
import { gatherInput } from "../rules";
import type { AnswerQuestionInput, NoteCueInput } from "../schema";
import { readEvidence } from "../scope";
import { askForWork } from "../working-out/commands";
import { workKey } from "../working-out/scope";

/** Keeps an answer to one of the library's questions; an earlier one is kept as replaced. */
export async function answerQuestion(tx: Transaction, actor: Person, player: Judged, input: AnswerQuestionInput): Promise<string> {
  const { library, facts } = await settle(tx, actor, player, input.side);
  const question = library.parts.questions.questions.find(({ id }) => id === input.questionId);
  if (!question) throw new InvalidError(`The library has no question "${input.questionId}". Nothing was changed.`);
  if (question.gate) throw new InvalidError("Pain is not weighed against anything: report it, and swings stop. Nothing was changed.");
  const answer = question.answers.find(({ id }) => id === input.answer);
  if (!answer) throw new InvalidError("This is no answer to that question. Nothing was changed.");
  const key = { academyId: player.academyId, playerId: player.id, side: input.side, questionId: question.id };
  await tx.questionAnswer.updateMany({ where: { ...key, replacedAt: null }, data: { replacedAt: now() } });
  const row = { ...key, id: newId(), answerId: answer.id, editionId: library.editionId, answeredById: actor.userId, answeredOn: dayValue(facts.today), answeredAt: now() };
  await orConflict(tx.questionAnswer.create({ data: row }), AT_ONCE);
  return `Kept: ${answer.words}.`;
}

export async function takeBackAnswer(tx: Transaction, player: Judged, side: Side, questionId: string): Promise<string> {
  const taken = await tx.questionAnswer.updateMany({ where: { academyId: player.academyId, playerId: player.id, side, questionId, replacedAt: null }, data: { replacedAt: now() } });
  if (taken.count === 0) throw new ConflictError("This answer was taken back already. Nothing was changed.");
  return "The answer is taken back; it can be asked again.";
}

/** The words that clicked for this player; empty words take them back. */
export async function noteCue(tx: Transaction, actor: Person, player: Judged, input: NoteCueInput): Promise<string> {
  const name = callableFault(await settle(tx, actor, player, input.side), input.faultId);
  const cue = (input.ownCue || input.cue).replace(/^[“"]+|[”"]+$/g, "").trim();
  const key = { academyId: player.academyId, playerId: player.id, side: input.side, faultId: input.faultId };
  await tx.clickedCue.updateMany({ where: { ...key, replacedAt: null }, data: { replacedAt: now() } });
  if (cue === "") return `“${name}”: no words have clicked yet.`;
  await orConflict(tx.clickedCue.create({ data: { ...key, id: newId(), cue, notedById: actor.userId, notedAt: now() } }), AT_ONCE);
  return `“${cue}” stands first for this player from now on.`;
}

/** Has the worker find out what a page cannot wait for: the order when it is wide, and whether it is steady. */
export async function askForOrder(tx: Transaction, actor: Person, player: Judged, side: Side, kind?: string): Promise<void> {
  const { library, facts } = await settle(tx, actor, player, side);
  const { given } = await readEvidence(tx, facts, player.academyId, side, library, kind);
  const input = gatherInput(given);
  await askForWork(tx, await workKey({ academyId: player.academyId, playerId: player.id, side }, library.editionId, input), input, actor.userId);
}
