import type { Person } from "@/lib/access/actor";
import { ConflictError, InvalidError } from "@/lib/core/errors";
import { dayValue } from "@/lib/core/days";
import { newId, type Id } from "@/lib/core/ids";
import type { Side } from "@/lib/domains/roster/rules";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import { AT_ONCE, orConflict, settle, type Judged } from "../commands";
import type { CallSymptomInput, NoteBallInput } from "../schema";

/** Notes one ball. What was not chosen stays unknown. */
export async function noteBall(tx: Transaction, actor: Person, player: Judged, input: NoteBallInput): Promise<string> {
  const { library, facts } = await settle(tx, actor, player, input.side);
  const { terms } = library.parts;
  const { categories } = terms.tally;
  const { task, swingKind, pitchHeight, pitchSide, pitchSpeed, direction, height, timing, spot, curve, press } = input;
  const isTaken = press === "took-strike" || press === "took-ball";
  const isMissed = press === "miss";
  const lists = { ...terms.lists, ...categories } as Readonly<Record<string, readonly { readonly id: string; readonly words: string }[]>>;
  for (const [name, value] of Object.entries({ task, swingKind, pitchHeight, pitchSide, pitchSpeed, direction, height, timing, spot, curve })) {
    if (value !== undefined && !lists[name]?.some(({ id }) => id === value)) throw new InvalidError(`The library has no ${name} “${value}”. Nothing was kept.`);
  }
  const isSlapper = facts.sides.some((known) => known.side === input.side && known.isSlapper);
  if (swingKind === "running-slap" && !isSlapper) throw new InvalidError(`${facts.givenName} is not taken as a slapper from this side. Nothing was kept.`);
  // A ball that was not met flew nowhere, and one that was not swung at was not early or late.
  const flight = isTaken || isMissed ? {} : { direction, height, spot, curve };
  await tx.tallyBall.create({
    data: {
      id: newId(), academyId: player.academyId, playerId: player.id, side: input.side, day: dayValue(facts.today), task, swingKind, pitchHeight, pitchSide, pitchSpeed,
      act: isTaken ? press : "swung", quality: isTaken ? null : press, ...flight, timing: isTaken ? undefined : timing, notedById: actor.userId, notedAt: now(),
    },
  });
  return "Ball noted.";
}

export async function takeBackBall(tx: Transaction, player: Judged, side: Side, ballId: Id): Promise<string> {
  const taken = await tx.tallyBall.updateMany({ where: { id: ballId, academyId: player.academyId, playerId: player.id, side, takenBackAt: null }, data: { takenBackAt: now() } });
  if (taken.count === 0) throw new ConflictError("This ball was taken back already. Nothing was changed.");
  return "The ball is taken back; it counts no more.";
}

/** A coach's own word on what the ball does stands above the tally. */
export async function callSymptom(tx: Transaction, actor: Person, player: Judged, input: CallSymptomInput): Promise<string> {
  const { library } = await settle(tx, actor, player, input.side);
  const symptom = library.parts.symptoms.symptoms.find(({ id }) => id === input.symptomId);
  if (!symptom) throw new InvalidError(`The library has no symptom "${input.symptomId}". Nothing was changed.`);
  const key = { academyId: player.academyId, playerId: player.id, side: input.side, symptomId: symptom.id };
  await tx.symptomCall.updateMany({ where: { ...key, replacedAt: null }, data: { replacedAt: now() } });
  if (input.state === "take-back") return `“${symptom.name}”: the tally speaks again.`;
  const row = { ...key, id: newId(), state: input.state, editionId: library.editionId, calledById: actor.userId, calledAt: now() };
  await orConflict(tx.symptomCall.create({ data: row }), AT_ONCE);
  return `“${symptom.name}”: ${input.state.replace("-", " ")}.`;
}
