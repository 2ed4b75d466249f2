import type { z } from "zod";
import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError, InvalidError, OvertakenError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { getDrillsForPlanning } from "@/lib/domains/library/queries";
import type { LibraryForPlanning } from "@/lib/domains/library/view";
import { noticeWritten } from "@/lib/domains/roster/events";
import { readClicked } from "@/lib/domains/observations/scope";
import { readSwingSources } from "@/lib/domains/roster/loads/scope";
import { elsewhereOf } from "@/lib/domains/roster/loads/view";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { getPlayerFacts } from "@/lib/domains/roster/queries";
import type { Side } from "@/lib/domains/roster/rules";
import { readReceivers } from "@/lib/domains/roster/scope";
import type { HomeView, PlayerFacts } from "@/lib/domains/roster/view";
import { dayIn, dayOf, daysAfter, dayValue } from "@/lib/core/days";
import { now } from "@/lib/platform/clock";
import { type Prisma, refusedByUnique, type Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import { beyondKept, mostDaysAWeek } from "@/lib/prescribe/season";
import type { SwingsElsewhere } from "@/lib/prescribe/week/request";
import type { PlanSubject } from "./policy";
import {
  countedPlan, draftLimits, drillRefusals, drillWords, MOST_DRILLS, PLAN_DAYS, PLAN_MOST_DAYS, planningFor, sendProblems, swingsFor,
  type Planning,
} from "./rules";
import { wordsOf, type chooseStillForm, type moveDrillForm, type setDaysForm, type setDoseForm, type startPlanForm } from "./schema";
import {
  listMarkedFrames, noteSelect, readActiveFoci, readCausesWorkedOn, readLastSent, readMarks, readPlansBeside, readSeasonRule, type NoteRowForView,
} from "./scope";
import { longDay, type KeptMarks } from "./view";
import { letterSeen, swingRefusals, usualOrder } from "./week/rules";

type Given<Form extends z.ZodType> = z.infer<Form>;
export type Written = Granted<PlanSubject, "plan.write">;
const asJson = (value: object) => value as Prisma.InputJsonObject;

// ---- Beginning -----------------------------------------------------------------------------------------------------

const NO_HOME = "First say what there is at home: gear, space and who is there. Nothing was begun.";

/** Begins a plan and its note for what is in focus; a draft that was begun before is gone on with. @returns the plan */
export async function startPlan(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "plan.draft">, given: Given<typeof startPlanForm>): Promise<Id> {
  const { academyId, id: playerId } = player;
  const { side } = given;
  if (player.hasLeft) throw new ConflictError("This player has left the academy. Nothing was begun.");
  const facts = await getPlayerFacts.as(actor, { playerId }, tx);
  if (!facts.sides.some((known) => known.side === side)) throw new InvalidError(`${facts.givenName} has no record for the ${side} side. Nothing was begun.`);
  const foci = await readActiveFoci(tx, academyId, playerId, side);
  const focus = given.focusId ? foci.find(({ id }) => id === given.focusId) : foci[0];
  if (!focus) throw new ConflictError("A note needs a focus. Choose first what to work on; nothing was begun.");
  if (!facts.home) throw new ConflictError(NO_HOME);
  // Two coaches who begin at once go on with one draft.
  await lockFocus(tx, focus.id);
  const begun = await tx.plan.findFirst({ where: { academyId, focusId: focus.id, state: "draft" }, select: { id: true } });
  if (begun) return begun.id;
  const library = await getDrillsForPlanning.as(actor, {}, tx);
  const fault = library.faults.find(({ id }) => id === focus.faultId);
  const { refusal: wait } = await readSeasonRule(tx, { academyId, playerId, side }, facts.season, fault, actor.timeZone);
  if (wait) throw new ConflictError(`${wait} Nothing was begun.`);
  const clicked = (await readClicked(tx, academyId, [playerId])).find((one) => one.side === side && one.faultId === focus.faultId);
  const cue = clicked?.cue ?? (await readLastSent(tx, academyId, focus.id))?.cue ?? fault?.cues[0]?.text ?? "";
  const [still] = await listMarkedFrames(tx, academyId, playerId, side);
  const planId = newId();
  const endsOn = dayValue(daysAfter(facts.today, PLAN_DAYS));
  const ofSide = { academyId, playerId, side, editionId: library.edition.id, cue, createdAt: now() };
  await tx.plan.create({
    data: {
      ...ofSide, id: planId, focusId: focus.id, level: facts.level, minutesPerDay: facts.home.minutesPerDay, daysPerWeek: facts.home.daysPerWeek,
      startsOn: dayValue(facts.today), endsOn, practiceOrder: usualOrder(facts.ageYears), state: "draft", createdById: actor.userId,
    },
  });
  await tx.note.create({
    data: {
      ...ofSide, id: newId(), planId, authorId: actor.userId, keptWell: "", oneThing: fault?.playerWording ?? "", why: "", forFamily: "", nextCheckOn: endsOn,
      clipId: still?.clipId, frameIndex: still?.frameIndex, marks: [],
    },
  });
  return planId;
}

async function lockFocus(tx: Transaction, focusId: Id): Promise<void> {
  await tx.$executeRaw`SELECT 1 FROM "Focus" WHERE "id" = ${focusId}::uuid FOR UPDATE`;
}

// ---- A draft in hand -----------------------------------------------------------------------------------------------

/** A draft that nobody else changes meanwhile, with all that decides what may stand in it. */
export interface Setting {
  readonly tx: Transaction;
  readonly note: NoteRowForView;
  readonly plan: NoteRowForView["plan"];
  readonly side: Side;
  readonly facts: PlayerFacts;
  readonly home: HomeView;
  readonly library: LibraryForPlanning;
  readonly planning: Planning;
  readonly isFocusActive: boolean;
  /** Why the season lets this focus wait; null when it may be worked on. */
  readonly seasonRefusal: string | null;
  /** Swings of a usual week that are no homework; null while nobody said. */
  readonly elsewhere: readonly SwingsElsewhere[] | null;
}

export async function lockPlan(tx: Transaction, plan: Written): Promise<void> {
  await tx.$executeRaw`SELECT 1 FROM "Plan" WHERE "id" = ${plan.id}::uuid FOR UPDATE`;
}

/** Takes a draft in hand: focus and plan are held until the end, and everything is read as it is now. */
export async function takeUp(tx: Transaction, actor: Person, granted: Written): Promise<Setting> {
  const focus = await tx.focus.findFirstOrThrow({ where: { academyId: granted.academyId, plans: { some: { id: granted.id } } } });
  await lockFocus(tx, focus.id);
  await lockPlan(tx, granted);
  const note = await tx.note.findUniqueOrThrow({ where: { planId: granted.id }, select: noteSelect });
  if (note.plan.state !== "draft") throw new ConflictError(sentAlready(note, actor.timeZone));
  const facts = await getPlayerFacts.as(actor, { playerId: granted.playerId }, tx);
  const { leftAt } = await tx.player.findUniqueOrThrow({ where: { id: granted.playerId }, select: { leftAt: true } });
  if (leftAt !== null) throw new ConflictError(`${facts.givenName} has left the academy. The draft is kept as it was; nothing was changed or sent.`);
  const { home } = facts;
  if (!home) throw new ConflictError("First say what there is at home: gear, space and who is there. Nothing was changed.");
  const side = note.side as Side;
  const library = await getDrillsForPlanning.as(actor, {}, tx);
  const elsewhere = elsewhereOf(await readSwingSources(tx, granted.academyId, granted.playerId));
  const causes = await readCausesWorkedOn(tx, granted.academyId, granted.playerId, side);
  const fault = library.faults.find(({ id }) => id === focus.faultId);
  const season = await readSeasonRule(tx, { academyId: granted.academyId, playerId: granted.playerId, side }, facts.season, fault, actor.timeZone);
  return {
    tx, note, plan: note.plan, side, facts, home, library, elsewhere, seasonRefusal: season.refusal, isFocusActive: focus.state === "active",
    planning: planningFor(library, facts, home, side, causes, focus.faultId, season.kept),
  };
}

function sentAlready(note: NoteRowForView, timeZone: string): string {
  const on = note.sentAt ? ` on ${longDay(dayIn(note.sentAt, timeZone))}` : "";
  return `This note was sent already${on}. It keeps its words; nothing was sent twice.`;
}

interface DrillNumbers {
  readonly drillId: string;
  readonly words: Prisma.JsonValue;
  readonly timesPerDay: number;
  readonly swingsPerDay: number;
  readonly minutesPerDay: number;
  readonly weekdays: readonly number[];
}

/** Holds the plan as it would be against the caps, together with every other plan in force. */
export async function refuseOverCaps(setting: Setting, drills: readonly DrillNumbers[], daysPerWeek = setting.plan.daysPerWeek): Promise<void> {
  const { tx, note, plan, facts, planning } = setting;
  const beside = await readPlansBeside(tx, note.academyId, note.playerId, plan.focusId, facts.today);
  const refusals = swingRefusals([countedPlan({ daysPerWeek, drills }), ...beside.map(countedPlan)], planning.caps, setting.elsewhere ?? []);
  if (refusals.length > 0) throw new ConflictError(`${refusals.join(" ")} Nothing was changed.`);
}

/** A drill that stands in the draft. */
export function drillInPlan({ plan }: Setting, drillId: string): NoteRowForView["plan"]["drills"][number] {
  const found = plan.drills.find((drill) => drill.drillId === drillId);
  if (!found) throw new ConflictError("This drill is not in the plan any more. Look at the page again; nothing was changed.");
  return found;
}

export async function setDays(tx: Transaction, actor: Person, granted: Written, given: Given<typeof setDaysForm>): Promise<void> {
  const setting = await takeUp(tx, actor, granted);
  const { today } = setting.facts;
  const { minutesPerDay, daysPerWeek, nextCheckOn } = given;
  const last = daysAfter(today, PLAN_MOST_DAYS);
  const problem = nextCheckOn <= today ? "The next check has to lie after today." : nextCheckOn > last ? `A plan runs eight weeks at most: until ${longDay(last)}.` : null;
  if (problem) throw new InvalidError(problem, { nextCheckOn: problem });
  // Days that were laid out for more days a week are no longer the plan's: each drill is then done on any day.
  const planDays = new Set(setting.plan.drills.flatMap(({ weekdays }) => weekdays));
  const isStillLaidOut = planDays.size <= daysPerWeek;
  await refuseOverCaps(setting, isStillLaidOut ? setting.plan.drills : setting.plan.drills.map((drill) => ({ ...drill, weekdays: [] })), daysPerWeek);
  if (!isStillLaidOut) await tx.planDrill.updateMany({ where: { planId: granted.id }, data: { weekdays: [] } });
  await tx.plan.update({ where: { id: granted.id }, data: { minutesPerDay, daysPerWeek, endsOn: dayValue(nextCheckOn) } });
  await tx.note.update({ where: { id: setting.note.id }, data: { nextCheckOn: dayValue(nextCheckOn) } });
}

/** Where days are laid out, a further drill is done on all of them, as far as it may. */
function daysOfAdded(drills: readonly { readonly weekdays: readonly number[] }[], most = 7): number[] {
  if (drills.some(({ weekdays }) => weekdays.length === 0)) return [];
  return [...new Set(drills.flatMap(({ weekdays }) => weekdays))].sort().slice(0, most);
}

/** Puts a drill into the plan with the library's dose. Hard limits are asked anew, whatever the page showed. */
export async function addDrill(tx: Transaction, actor: Person, granted: Written, drillId: string): Promise<string> {
  const setting = await takeUp(tx, actor, granted);
  const { plan, planning, library } = setting;
  const drill = library.drills.find(({ id }) => id === drillId);
  if (!drill) throw new ConflictError("The library has no such drill any more: it was retired since this page was opened. Nothing was changed.");
  if (plan.drills.some((one) => one.drillId === drillId)) throw new ConflictError(`“${drill.name}” stands in the plan already.`);
  if (plan.drills.length >= MOST_DRILLS) throw new ConflictError(`A plan holds ${MOST_DRILLS} drills at most. Take one out first.`);
  const limits = drillRefusals(planning.choice, drillId);
  if (limits.length > 0) throw new ConflictError(`“${drill.name}” stays out. ${limits.join(" ")}`);
  const { dose } = planning.choice.allowed.find((one) => one.drill.id === drillId)?.drill ?? drill;
  const timesPerDay = dose.sets * dose.reps;
  const added = {
    drillId, words: drillWords(drill, planning.player), timesPerDay, swingsPerDay: swingsFor({ dose }, timesPerDay), minutesPerDay: Math.ceil(dose.minutes),
    weekdays: daysOfAdded(plan.drills, mostDaysAWeek(drill, planning.player)),
  };
  await refuseOverCaps(setting, [...plan.drills, added]);
  const position = Math.max(0, ...plan.drills.map((one) => one.position)) + 1;
  const why = [planning.choice.allowed.find((one) => one.drill.id === drillId)?.why, drill.purpose].filter(Boolean).join(" ");
  await tx.planDrill.create({ data: { ...added, id: newId(), academyId: granted.academyId, planId: granted.id, position, why } });
  return drill.name;
}

export async function removeDrill(tx: Transaction, actor: Person, granted: Written, drillId: string): Promise<void> {
  const { id } = drillInPlan(await takeUp(tx, actor, granted), drillId);
  await tx.planDrill.delete({ where: { id } });
}

/** Moves a drill one place up or down; at the end it stays where it is. */
export async function moveDrill(tx: Transaction, actor: Person, granted: Written, { drillId, direction }: Given<typeof moveDrillForm>): Promise<void> {
  const setting = await takeUp(tx, actor, granted);
  const order = [...setting.plan.drills];
  const from = order.indexOf(drillInPlan(setting, drillId));
  const to = Math.min(order.length - 1, Math.max(0, direction === "up" ? from - 1 : from + 1));
  order.splice(to, 0, ...order.splice(from, 1));
  for (const [position, { id }] of order.entries()) await tx.planDrill.update({ where: { id }, data: { position: position + 1 } });
}

/** How often and how long; the swings follow from the library's count for the drill. */
export async function setDose(tx: Transaction, actor: Person, granted: Written, { drillId, timesPerDay, minutesPerDay }: Given<typeof setDoseForm>): Promise<void> {
  const setting = await takeUp(tx, actor, granted);
  const kept = drillInPlan(setting, drillId);
  const drill = setting.library.drills.find(({ id }) => id === drillId);
  if (!drill) throw new ConflictError("The library has no such drill any more. Take it out of the plan; nothing was changed.");
  const dose = { timesPerDay, minutesPerDay, swingsPerDay: swingsFor(drill, timesPerDay) };
  const larger = beyondKept({ drillId, ...dose, daysPerWeek: 0 }, setting.planning.player);
  if (larger) throw new ConflictError(`${larger} Nothing was changed.`);
  await refuseOverCaps(setting, setting.plan.drills.map((one) => (one.id === kept.id ? { ...one, ...dose } : one)));
  await tx.planDrill.update({ where: { id: kept.id }, data: dose });
}

// ---- The note ------------------------------------------------------------------------------------------------------

/** Which frame goes with the note; none is an answer too. */
export async function chooseStill(tx: Transaction, actor: Person, granted: Written, { still }: Given<typeof chooseStillForm>): Promise<void> {
  const { note, side } = await takeUp(tx, actor, granted);
  if (still) {
    const { clipId, frameIndex } = still;
    const clip = await tx.clip.findFirst({ where: { id: clipId, academyId: granted.academyId, playerId: granted.playerId, swing: { side } } });
    if (!clip || frameIndex < 0 || frameIndex > clip.lastFrame - clip.firstFrame) throw new InvalidError("There is no such frame among the clips of this side.", { still: "There is no such frame among the clips of this side." });
  }
  await tx.note.update({ where: { id: note.id }, data: { clipId: still?.clipId ?? null, frameIndex: still?.frameIndex ?? null } });
}

// ---- Sending -------------------------------------------------------------------------------------------------------

/**
 * Sends plan and note together: words, doses and marks are kept as they are now, the plan that was in force for the same
 * focus ends, and everybody for whom it is gets a notice. Of two who send at once, one does; what was changed since `seen` is not
 * sent unseen. @returns who gets it
 */
export async function sendNote(tx: Transaction, actor: Person, granted: Written, seen?: string): Promise<string[]> {
  const { academyId, playerId } = granted;
  const setting = await takeUp(tx, actor, granted);
  const { note, plan, facts, library, planning } = setting;
  if (seen !== undefined && seen !== letterSeen(note)) throw new OvertakenError("The draft was changed since you looked at it. It stands here now as it is; nothing was sent.");
  const receivers = await readReceivers(tx, academyId, playerId, facts.today);
  const drills = plan.drills.map((drill) => {
    const record = library.drills.find(({ id }) => id === drill.drillId);
    return { ...drill, words: record ? drillWords(record, planning.player) : drill.words };
  });
  const beside = await readPlansBeside(tx, academyId, playerId, plan.focusId, facts.today);
  const { keptWell, oneThing, why, cue, forFamily } = note;
  const problems = sendProblems(
    {
      givenName: facts.givenName, isMinor: facts.isMinor, isPaused: facts.isPaused, hasLeft: false, isFocusActive: setting.isFocusActive, seasonRefusal: setting.seasonRefusal,
      isElsewhereKnown: setting.elsewhere !== null, today: facts.today, nextCheckOn: dayOf(note.nextCheckOn), words: { keptWell, oneThing, why, cue, forFamily }, receivers,
      drills: drills.map((drill) => ({ name: wordsOf(drill.words).name, limits: draftLimits(library, planning, plan.daysPerWeek, drill) })),
      swingRefusals: swingRefusals([countedPlan({ daysPerWeek: plan.daysPerWeek, drills }), ...beside.map(countedPlan)], planning.caps, setting.elsewhere ?? []),
    },
    planning.reader,
  );
  if (problems.length > 0) throw new ConflictError(`Nothing was sent. ${problems.join(" ")}`);

  for (const { id, words } of drills) await tx.planDrill.update({ where: { id }, data: { words: asJson(words as object) } });
  await tx.plan.updateMany({ where: { academyId, focusId: plan.focusId, state: "sent" }, data: { state: "ended" } });
  const sentAt = now();
  const kept = { editionId: library.edition.id, sentAt };
  await tx.plan
    .update({ where: { id: plan.id }, data: { ...kept, state: "sent", startsOn: dayValue(facts.today), level: facts.level } })
    .catch((error: unknown) => {
      if (refusedByUnique(error) === null) throw error;
      throw new ConflictError("Another note for the same focus was sent at the same moment. Nothing was sent twice.");
    });
  await tx.note.update({ where: { id: note.id }, data: { ...kept, authorId: actor.userId, marks: await keptMarks(tx, note) } });
  await tx.notice.createMany({
    data: receivers.map(({ id: userId }) => ({ id: newId(), academyId, userId, playerId, kind: "note-sent", subjectId: note.id, createdAt: sentAt })),
    skipDuplicates: true,
  });
  for (const { id: userId } of receivers) await tell(tx, noticeWritten, { userId }, { key: `notice ${userId}` });
  return receivers.map(({ name }) => name);
}

/** The marks of the still as they stand on its frame now, with the size of the picture they stand on. */
async function keptMarks(tx: Transaction, note: NoteRowForView): Promise<Prisma.InputJsonValue> {
  if (!note.clipId || note.frameIndex === null || !note.clip) return [];
  const { widthPx, heightPx } = note.clip.file;
  const marks: KeptMarks = { v: 1, widthPx, heightPx, shapes: await readMarks(tx, note.academyId, note.clipId, note.frameIndex) };
  return asJson(marks);
}
