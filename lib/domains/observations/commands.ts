import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import { isSameValue } from "@/lib/core/canonical-json";
import { newId, type Id } from "@/lib/core/ids";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { getPlayerFacts } from "@/lib/domains/roster/queries";
import type { Side } from "@/lib/domains/roster/rules";
import type { PlayerFacts } from "@/lib/domains/roster/view";
import { now } from "@/lib/platform/clock";
import { database, Prisma, refusedByUnique, type Database, type Transaction } from "@/lib/platform/database";
import { ENGINE_VERSION } from "@/lib/reason/version";
import { whyNotInSeason } from "./season/rules";
import { readSeasonCase } from "./season/scope";
import { faultsFor, gatherInput, proposalOf, readingsOfSwing, speaks } from "./rules";
import type { AnswerCauseInput, CallFaultInput, ChooseFocusInput, OverruleInput } from "./schema";
import { readEvidence, readFoci, readLibraryForRanking, readReadings, type RankingLibrary, type StoredReading } from "./scope";
import { workOutOnce, type RunInput, type RunOutput } from "./working-out/rules";
import { findWork, workKey } from "./working-out/scope";

export type Judged = Granted<PlayerSubject, "reasoning.judge">;

export interface Setting {
  readonly actor: Person;
  readonly player: Judged;
  readonly side: Side;
  readonly facts: PlayerFacts;
  readonly library: RankingLibrary;
  readonly tx: Transaction;
}

/** The player, the side and the library in force, or a sentence about what does not fit. */
export async function settle(tx: Transaction, actor: Person, player: Judged, side: Side): Promise<Setting> {
  const facts = await getPlayerFacts.as(actor, { playerId: player.id }, tx);
  if (!facts.sides.some((known) => known.side === side)) throw new InvalidError(`${facts.givenName} has no record for the ${side} side. Nothing was changed.`);
  const library = await readLibraryForRanking(tx, player.academyId);
  if (!library) throw new ConflictError("The library is not there yet. The head coach or an admin imports it first. Nothing was changed.");
  return { actor, player, side, facts, library, tx };
}

/** The fault's name, when it can be called and worked on for this side. */
export function callableFault({ facts, side, library }: Setting, faultId: string): string {
  const { parts, retired } = library;
  const record = parts.faults.faults.find(({ id }) => id === faultId);
  if (!record) throw new InvalidError(`The library has no fault "${faultId}". Nothing was changed.`);
  if (retired.has(faultId)) throw new ConflictError(`“${record.name}” was retired from the library. What was called before is kept; choose another.`);
  const isSlapper = facts.sides.some((known) => known.side === side && known.isSlapper);
  if (!faultsFor(parts, retired, { sport: facts.sport, isSlapper }).includes(record)) {
    throw new InvalidError(`“${record.name}” is not looked for in ${facts.givenName}'s swing from this side. Nothing was changed.`);
  }
  return record.name;
}

/** Turns a row that the database refused as a double into a sentence. */
export async function orConflict<T>(work: Promise<T>, sentence: string | (() => Promise<string>)): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (refusedByUnique(error) === null) throw error;
    throw new ConflictError(typeof sentence === "string" ? sentence : await sentence());
  }
}

export const AT_ONCE = "The same was kept a moment ago. Look at the page again; nothing was lost.";

/** Calls a fault on one swing. The coach's own earlier call on it is kept as replaced. */
export async function callFault(tx: Transaction, actor: Person, player: Judged, input: CallFaultInput): Promise<string> {
  const setting = await settle(tx, actor, player, input.side);
  const name = callableFault(setting, input.faultId);
  const { academyId } = player;
  const swing = await tx.swing.findFirst({ where: { id: input.swingId, academyId, playerId: player.id }, select: { id: true, side: true, swingKind: true, clips: { select: { id: true } } } });
  if (!swing) throw new NotFoundError("swing");
  if (swing.side !== input.side) throw new InvalidError(`This swing was taken from the ${swing.side} side; it says nothing of the ${input.side} side. Nothing was changed.`);
  if (input.clipId && !swing.clips.some(({ id }) => id === input.clipId)) throw new InvalidError("This clip shows another swing. Nothing was changed.");

  const own = { academyId, swingId: swing.id, faultId: input.faultId, calledById: actor.userId, replacedAt: null };
  const said = await whatWasSaid(setting, swing, input, name);
  await tx.observation.updateMany({ where: own, data: { replacedAt: now() } });
  if (!said) return `“${name}”: your call is taken back.`;
  const { state, source, reading } = said;
  const evidence = input.clipId ? { clipId: input.clipId, frameIndex: input.frameIndex } : (reading?.at ?? {});
  const row = { ...own, ...evidence, id: newId(), state, source, calledAt: now(), editionId: setting.library.editionId, reading: reading?.snapshot ?? Prisma.DbNull };
  await orConflict(tx.observation.create({ data: row }), AT_ONCE);
  return `“${name}”: ${state.replace("-", " ")}.`;
}

/** State and source of a call with the reading beside it; null when the call is taken back. */
async function whatWasSaid({ library, facts, tx, player }: Setting, swing: { id: Id; swingKind: string }, input: CallFaultInput, name: string) {
  if (input.state === "take-back") return null;
  const fault = library.parts.faults.faults.filter(({ id }) => id === input.faultId);
  const readings = await readReadings(tx, player.academyId, [swing.id]);
  const proposal = proposalOf(readingsOfSwing({ parts: library.parts, facts, readings }, fault, swing).get(input.faultId));
  const reading = strongestReading(fault.flatMap(({ checkpoints }) => checkpoints), readings);
  if (input.state === "as-read") {
    if (!proposal) throw new ConflictError(`The readings do not say enough about “${name}”; call it by eye. Nothing was changed.`);
    return { state: proposal, source: "reading" as const, reading };
  }
  const source = input.source ?? (proposal === input.state ? "both" : "eye");
  if (source !== "eye" && !reading) throw new InvalidError(`No reading speaks of “${name}” on this swing; call it by eye. Nothing was changed.`);
  return { state: input.state, source, reading };
}

/** The reading that weighs most for a fault, as it is now, with the last frame it took points from. */
function strongestReading(links: readonly { readonly checkpoint: string; readonly weight: number }[], readings: readonly StoredReading[]) {
  const weightOf = (id: string) => links.find(({ checkpoint }) => checkpoint === id)?.weight ?? 0;
  const [found] = readings.filter((reading) => speaks(reading) && weightOf(reading.checkpointId) > 0).sort((a, b) => weightOf(b.checkpointId) - weightOf(a.checkpointId));
  if (!found) return null;
  const { clipId, inputsHash, body } = found;
  const { checkpointId, formulaId, formulaVersion, unit, value, sd, sdCamera, verdict, size } = body;
  const frame = body.inputsUsed.frames.at(-1);
  const snapshot: Prisma.InputJsonObject = { checkpointId, formulaId, formulaVersion, unit, value, sd, sdCamera, verdict, size, inputsHash };
  return { at: { clipId, frameIndex: frame?.frameIndex }, snapshot };
}

/** Whether a cause that was asked about is there. */
export async function answerCause(tx: Transaction, actor: Person, player: Judged, input: AnswerCauseInput): Promise<string> {
  const { library } = await settle(tx, actor, player, input.side);
  const node = library.parts.causes.nodes.find(({ id }) => id === input.nodeId);
  if (!node || node.kind === "fault") throw new InvalidError(`The library has no cause "${input.nodeId}" to ask about. Nothing was changed.`);
  if (node.gate) throw new InvalidError("Pain is not weighed against anything: report it, and swings stop. Nothing was changed.");
  const key = { academyId: player.academyId, playerId: player.id, side: input.side, nodeId: node.id };
  await tx.causeAnswer.updateMany({ where: { ...key, replacedAt: null }, data: { replacedAt: now() } });
  if (input.answer === "not-asked") return `“${node.name}”: not asked.`;
  const row = { ...key, id: newId(), isPresent: input.answer === "yes", answeredById: actor.userId, answeredAt: now() };
  await orConflict(tx.causeAnswer.create({ data: row }), AT_ONCE);
  return `“${node.name}”: ${input.answer}.`;
}

/** Keeps the run that the coach looked at; the same input is kept once. */
async function storeRun({ actor, player, side, facts, library, tx }: Setting): Promise<Id> {
  const { given } = await readEvidence(tx, facts, player.academyId, side, library);
  const input = gatherInput(given);
  const key = { academyId: player.academyId, playerId: player.id, side, editionId: library.editionId, engineVersion: ENGINE_VERSION };
  const latest = await tx.rankingRun.findFirst({ where: key, orderBy: [{ ranAt: "desc" }, { id: "asc" }], select: { id: true, input: true } });
  if (latest && isSameValue(latest.input, input)) return latest.id;
  const output = await workOutWhole(tx, { academyId: player.academyId, playerId: player.id, side }, library, input);
  const json = (value: object) => value as Prisma.InputJsonObject;
  const run = await tx.rankingRun.create({ data: { ...key, id: newId(), input: json(input), output: json(output), ranById: actor.userId, ranAt: now() } });
  return run.id;
}

/** The order as the page showed it: at once, else what the worker found, else that it was too wide. Nobody waits here for sampling. */
async function workOutWhole(tx: Transaction, of: { academyId: Id; playerId: Id; side: Side }, library: RankingLibrary, input: RunInput): Promise<RunOutput> {
  const quick = workOutOnce(library.editionId, library.parts, input);
  if (quick.outcome !== "too-wide") return quick;
  const work = await findWork(tx, await workKey(of, library.editionId, input));
  return work?.output ?? quick;
}

/** Takes a fault out of the candidates, with the reason that stays on the record. */
export async function overruleFault(tx: Transaction, actor: Person, player: Judged, input: OverruleInput): Promise<string> {
  const setting = await settle(tx, actor, player, input.side);
  const name = callableFault(setting, input.faultId);
  const rankingRunId = await storeRun(setting);
  const row = {
    id: newId(), academyId: player.academyId, playerId: player.id, side: input.side, faultId: input.faultId, reason: input.reason, rankingRunId,
    byId: actor.userId, at: now(),
  };
  await orConflict(tx.overrule.create({ data: row }), `“${name}” is overruled already. Its reason stands on the page.`);
  return `“${name}” is overruled. Your reason is kept.`;
}

export async function undoOverrule(tx: Transaction, player: Judged, side: Side, overruleId: Id): Promise<string> {
  const undone = await tx.overrule.updateMany({ where: { id: overruleId, academyId: player.academyId, playerId: player.id, side, undoneAt: null }, data: { undoneAt: now() } });
  if (undone.count === 0) throw new ConflictError("This was undone already. Nothing was changed.");
  return "It counts again. The reason stays on the record.";
}

const SLOTS = [1, 2] as const;

/** Makes a fault one of the two things in focus; parks one for it when the coach says which. */
export async function chooseFocus(tx: Transaction, actor: Person, player: Judged, input: ChooseFocusInput): Promise<string> {
  const setting = await settle(tx, actor, player, input.side);
  const name = callableFault(setting, input.faultId);
  if (input.parkId) await parkFocus(tx, player, input.side, input.parkId);
  await refuseInSeason(setting, input.faultId);
  const foci = await readFoci(tx, player.academyId, [player.id], input.side);
  const known = foci.find(({ faultId }) => faultId === input.faultId);
  if (known?.state === "active") throw new ConflictError(`“${name}” is in focus already. Nothing was changed.`);
  const slot = freeSlot(setting, foci);
  const rankingRunId = await storeRun(setting);
  const chosen = { state: "active", slot, rankingRunId, changedAt: now() };
  const row = {
    ...chosen, id: newId(), academyId: player.academyId, playerId: player.id, side: input.side, faultId: input.faultId,
    editionId: setting.library.editionId, chosenById: actor.userId, chosenAt: now(),
  };
  const write = known ? tx.focus.update({ where: { id: known.id }, data: chosen }) : tx.focus.create({ data: row });
  await orConflict(write, () => tooManyWords(database(), setting));
  return `In focus: “${name}”.`;
}

/** In season no new change of the movement begins without the head coach's yes. */
async function refuseInSeason({ tx, actor, player, side, facts, library }: Setting, faultId: string): Promise<void> {
  const fault = library.parts.faults.faults.find(({ id }) => id === faultId);
  const asked = await readSeasonCase(tx, { academyId: player.academyId, playerId: player.id, side }, facts.season, actor.timeZone);
  const words = fault ? whyNotInSeason(asked, fault) : null;
  if (words) throw new ConflictError(`${words} Nothing was changed.`);
}

/** Takes a parked focus up again. */
export async function resumeFocus(tx: Transaction, actor: Person, player: Judged, side: Side, focusId: Id, parkId?: Id): Promise<string> {
  const focus = await ownFocus(tx, player, side, focusId);
  if (focus.state !== "parked") throw new ConflictError("This is not parked any more. Look at the page again; nothing was changed.");
  return chooseFocus(tx, actor, player, { playerId: player.id, side, faultId: focus.faultId, parkId });
}

export async function parkFocus(tx: Transaction, player: Judged, side: Side, focusId: Id): Promise<string> {
  return changeFocus(tx, player, side, focusId, "parked");
}

export async function endFocus(tx: Transaction, player: Judged, side: Side, focusId: Id): Promise<string> {
  return changeFocus(tx, player, side, focusId, "ended");
}

async function changeFocus(tx: Transaction, player: Judged, side: Side, focusId: Id, state: "parked" | "ended"): Promise<string> {
  const focus = await ownFocus(tx, player, side, focusId);
  const from = state === "parked" ? ["active"] : ["active", "parked"];
  const changed = await tx.focus.updateMany({ where: { id: focus.id, state: { in: from } }, data: { state, slot: null, changedAt: now() } });
  if (changed.count === 0) throw new ConflictError("Somebody changed this focus a moment ago. Look at the page again; nothing was changed.");
  return state === "parked" ? "Parked. It stays in sight and can be taken up again." : "Ended. It stays on the record.";
}

async function ownFocus(tx: Transaction, player: Judged, side: Side, focusId: Id) {
  const focus = await tx.focus.findFirst({ where: { id: focusId, academyId: player.academyId, playerId: player.id, side } });
  if (!focus) throw new NotFoundError("focus");
  return focus;
}

type Taken = readonly { readonly state: string; readonly slot: number | null; readonly faultId: string }[];

function freeSlot(setting: Setting, foci: Taken): 1 | 2 {
  const slot = SLOTS.find((free) => !foci.some((focus) => focus.state === "active" && focus.slot === free));
  if (!slot) throw new ConflictError(refusalOfThird(setting, foci));
  return slot;
}

function refusalOfThird({ library }: Setting, foci: Taken): string {
  const names = foci.filter(({ state }) => state === "active").map(({ faultId }) => `“${library.parts.faults.faults.find(({ id }) => id === faultId)?.name ?? faultId}”`);
  return `Two things are in focus already: ${names.join(" and ")}. Say which one to park first. Nothing was changed.`;
}

/** After the database refused: what stands there now, read outside the transaction that failed. */
async function tooManyWords(db: Database, setting: Setting): Promise<string> {
  const foci = await readFoci(db, setting.player.academyId, [setting.player.id], setting.side);
  const active = foci.filter(({ state }) => state === "active");
  return active.length >= SLOTS.length ? refusalOfThird(setting, foci) : "Somebody else chose a focus at the same moment. Look at the page again and choose once more; yours was not kept.";
}
