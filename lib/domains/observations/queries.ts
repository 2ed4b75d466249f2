import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may, mayInAcademy } from "@/lib/access/guard";
import { ageYears } from "@/lib/core/age";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { clipAddress } from "@/lib/domains/clips/schema";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { getPlayer, getPlayerFacts } from "@/lib/domains/roster/queries";
import type { Side, Sport } from "@/lib/domains/roster/rules";
import { findPlayerSubject, openPause } from "@/lib/domains/roster/scope";
import { dayOf, dayValue } from "@/lib/core/days";
import { todayIn } from "@/lib/platform/clock";
import type { Database } from "@/lib/platform/database";
import { pickNextQuestion } from "@/lib/reason/next-question";
import type { Sight } from "@/lib/reason/types";
import { listCageDay as mayListCageDay, seeReasoning } from "./policy";
import { questionView } from "./asking/view";
import { countCalls, faultsFor, gatherInput, readingsOfSwing, retiredCalls, stands, termOf, type FaultCount } from "./rules";
import { cageDayForm, playerSideForm, timelineForm, whatFirstForm } from "./schema";
import { namesOfUsers, readClicked, readEvidence, readFoci, readLibraryForRanking, taughtPlayersScope, type RankingLibrary, type SideEvidence, type SwingRow } from "./scope";
import { agreeInSeason } from "./season/policy";
import { readSeasonCase } from "./season/scope";
import { seasonStanding } from "./season/view";
import { symptomViews } from "./tally/view";
import { findQuestionOnce, findReasonsOnce, offeredQuestions, REASONED_WIDTH, workOutOnce, type RunInput } from "./working-out/rules";
import { findWork, workKey, type FoundWork } from "./working-out/scope";
import { candidateView } from "./working-out/view";
import {
  askFirstView, callSections, focusPair, swingWords,
  type AskFirstView, type CageDayRow, type CallSectionView, type FocusPairView, type PlayerOverviewView, type WhatFirstView,
} from "./view";

const subjectOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);
const teachers = <Input extends { playerId: Id }>() => may<Input, PlayerSubject, "reasoning.see">(seeReasoning, subjectOf);

async function libraryOf(db: Database, academyId: Id): Promise<RankingLibrary> {
  const library = await readLibraryForRanking(db, academyId);
  if (!library) throw new NotFoundError("library");
  return library;
}

/** What is seen, what to ask first, what to work on first, what is in focus: one page, one fixed number of queries. */
export const getWhatFirst = defineQuery({
  name: "observations.get-what-first",
  input: whatFirstForm,
  policy: teachers<z.infer<typeof whatFirstForm>>(),
  run: async ({ actor, input, granted, db }): Promise<WhatFirstView> => {
    const { academyId, id: playerId } = granted;
    const player = await getPlayer.as(actor, { playerId }, db);
    const facts = await getPlayerFacts.as(actor, { playerId }, db);
    if (!facts.sides.some(({ side }) => side === input.side)) throw new NotFoundError();
    const library = await libraryOf(db, academyId);
    const evidence = await readEvidence(db, facts, academyId, input.side, library, input.kind);
    const swing = evidence.swings.find(({ id }) => id === input.swingId) ?? evidence.swings[0] ?? null;
    const names = await namesOfUsers(db, academyId, [...evidence.observations.map(({ calledById }) => calledById), ...evidence.overrules.map(({ byId }) => byId)]);
    const clicked = await readClicked(db, academyId, [playerId]);
    const foci = focusPair(library.parts, await readFoci(db, academyId, [playerId], input.side), clicked);
    const sections = swing ? await sectionsOf(db, actor, library, evidence, swing, names, input.all) : [];
    const season = seasonStanding(
      await readSeasonCase(db, { academyId, playerId, side: input.side }, facts.season, actor.timeZone),
      faultsFor(library.parts, library.retired, { sport: facts.sport, isSlapper: evidence.given.isSlapper }),
      agreeInSeason.allows(actor, granted),
    );
    const run = gatherInput(evidence.given);
    const key = await workKey({ academyId, playerId, side: input.side }, library.editionId, run);
    const work = await findWork(db, key);
    const order = orderOf(library, evidence, run, work, new Set(foci.active.map(({ faultId }) => faultId)));
    return {
      playerId,
      name: player.name,
      givenName: player.givenName,
      side: input.side,
      sides: facts.sides.map(({ side }) => side),
      editionNumber: library.number,
      swings: evidence.swings.map(({ id, filmedOn, clips }) => ({ id, filmedOn, views: clips.map(({ view }) => view), isInHand: id === swing?.id })),
      swingWords: swingWords(library.parts, evidence.swings),
      swingInHandId: swing?.id ?? null,
      sections,
      faults: faultsFor(library.parts, library.retired, { sport: facts.sport, isSlapper: evidence.given.isSlapper }).map(({ id, name }) => ({ faultId: id, name })),
      kinds: evidence.kinds.map((id) => ({ id, words: termOf(library.parts.terms.lists.swingKind, id), isInHand: id === evidence.kind })),
      coachCount: new Set(evidence.observations.filter(({ swingId }) => swingId === swing?.id).map(({ calledById }) => calledById)).size,
      symptoms: symptomViews(evidence.given).filter(({ state }) => state !== "not-visible"),
      retired: retiredCalls(evidence.given).map((id) => nameOf(library, id)),
      overruled: evidence.overrules.map(({ id, faultId, reason, byId, at }) => ({
        id, faultId, reason, by: names.get(byId) ?? "A coach", on: todayLike(at), name: nameOf(library, faultId),
      })),
      focus: foci,
      season,
      workDue: order.isAnythingKnown && !work?.isDone ? key.inputHash : null,
      ...order,
    };
  },
});

type OrderView = Pick<WhatFirstView, "isAnythingKnown" | "standing" | "impossible" | "sampledError" | "steadiness" | "question" | "answers" | "askFirst" | "answered" | "candidates">;

/** What comes of the evidence: worked out at once where that is quick, else as the worker left it. */
function orderOf({ parts, editionId }: RankingLibrary, evidence: SideEvidence, run: RunInput, work: FoundWork | null, inFocus: ReadonlySet<string>): OrderView {
  const quick = workOutOnce(editionId, parts, run);
  const output = quick.outcome === "too-wide" ? (work?.output ?? quick) : quick;
  const { calls, readings, symptoms, answers } = run.ranking.evidence;
  const isAnythingKnown = [calls, readings, symptoms].some((known) => Object.keys(known).length > 0) || answers.length > 0;
  const answerOf = (nodeId: string): AskFirstView["answer"] => {
    const given = evidence.answers.find((answer) => answer.nodeId === nodeId);
    return given ? (given.isPresent ? "yes" : "no") : "not-asked";
  };
  const asked = (ids: readonly string[]) => ids.flatMap((id) => askFirstView(parts, id, answerOf(id)) ?? []);
  const candidates = output.outcome === "ranked" ? output.candidates : [];
  const isNarrow = quick.outcome === "ranked" && quick.width <= REASONED_WIDTH && isAnythingKnown;
  const reasons = isNarrow ? findReasonsOnce(editionId, parts, run, candidates.map(({ id }) => id)) : new Map(Object.entries(work?.insight?.reasons ?? {}));
  const standing = evidence.questionAnswers.map((row) => ({ row, record: parts.questions.questions.find(({ id }) => id === row.questionId) }));
  const answersGiven = standing.flatMap(({ row, record }) => {
    const answeredOn = todayLike(row.answeredOn);
    const answer = record?.answers.find(({ id }) => id === row.answerId);
    return record && answer ? [{ questionId: record.id, question: record.words, answer: answer.words, on: answeredOn, isStanding: stands(answeredOn, record.standsDays, evidence.given.facts.today) }] : [];
  });
  const offered = offeredQuestions(parts, {
    isSlapper: evidence.given.isSlapper,
    views: evidence.swings.flatMap(({ clips }) => clips.map(({ view }) => view)),
    answered: answersGiven.filter(({ isStanding }) => isStanding).map(({ questionId }) => questionId),
  });
  const valued = work?.insight?.questions;
  const next = isNarrow ? findQuestionOnce(editionId, parts, run, offered) : valued ? pickNextQuestion(valued, (id) => offered.some((question) => question.id === id)) : null;
  const steady = work?.steadiness ?? null;
  const instead = steady?.instead[0];
  return {
    isAnythingKnown,
    standing: output.outcome === "ranked" ? (output.isEnoughSeen ? "ranked" : "not-enough") : output.outcome,
    impossible: output.outcome === "impossible" ? output.ids.map((id) => parts.faults.faults.find((fault) => fault.id === id)?.name ?? id) : [],
    sampledError: output.outcome === "ranked" && output.sampled ? Math.max(1, Math.round(100 * output.sampled.error)) : null,
    steadiness: steady && { isSteady: steady.isSteady, instead: instead ? (parts.faults.faults.find(({ id }) => id === instead.id)?.name ?? null) : null },
    question: next && questionView(parts, next, candidates[0]?.id ?? null),
    answers: answersGiven,
    askFirst: asked(output.outcome === "ranked" ? output.askFirst.map(({ id }) => id) : []),
    answered: asked(evidence.answers.map(({ nodeId }) => nodeId)),
    candidates: candidates.map((candidate) => candidateView(parts, candidate, reasons.get(candidate.id) ?? null, inFocus)),
  };
}

const todayLike = (at: Date) => at.toISOString().slice(0, 10);
const nameOf = ({ parts }: RankingLibrary, faultId: string) => parts.faults.faults.find(({ id }) => id === faultId)?.name ?? faultId;

async function sectionsOf(db: Database, actor: Person, library: RankingLibrary, evidence: SideEvidence, swing: SwingRow, names: ReadonlyMap<Id, string>, openSection: string | undefined): Promise<CallSectionView[]> {
  const { given } = evidence;
  const player = { sport: given.facts.sport, isSlapper: given.isSlapper };
  const counts: ReadonlyMap<string, FaultCount> = countCalls(evidence.swings, given.calls);
  const events = await db.swingEvent.findMany({ where: { academyId: actor.academyId, swingId: swing.id }, orderBy: [{ event: "asc" }, { source: "asc" }, { clipId: "asc" }], select: { event: true, clipId: true, frameIndex: true } });
  const ratios = readingsOfSwing(given, faultsFor(library.parts, library.retired, player), swing);
  return callSections({ library, evidence, actorId: actor.userId, swing, counts, ratios, names, events, openSection }, player);
}

/** What is in focus and what is parked on one side. */
export const getFoci = defineQuery({
  name: "observations.get-foci",
  input: playerSideForm,
  policy: teachers<z.infer<typeof playerSideForm>>(),
  run: async ({ input, granted, db }): Promise<FocusPairView> => {
    const rows = await readFoci(db, granted.academyId, [granted.id], input.side);
    if (rows.length === 0) return { active: [], parked: [] };
    return focusPair((await libraryOf(db, granted.academyId)).parts, rows, await readClicked(db, granted.academyId, [granted.id]));
  },
});

const TIMELINE_ROWS = 20;

/** A player's side: the focus, and the swings newest first with what was seen in them. */
export const getPlayerOverview = defineQuery({
  name: "observations.get-player-overview",
  input: timelineForm,
  policy: teachers<z.infer<typeof timelineForm>>(),
  run: async ({ actor, input, granted, db }): Promise<PlayerOverviewView> => {
    const { academyId, id: playerId } = granted;
    const library = await libraryOf(db, academyId);
    const facts = await getPlayerFacts.as(actor, { playerId }, db);
    const evidence = await readEvidence(db, facts, academyId, input.side, library);
    const output = workOutOnce(library.editionId, library.parts, gatherInput(evidence.given));
    const [toAsk] = output.outcome === "ranked" ? output.askFirst : [];
    const foci = await readFoci(db, academyId, [playerId], input.side);
    const found = await db.swing.findMany({
      where: { academyId, playerId, side: input.side },
      orderBy: [{ filmedOn: "desc" }, { createdAt: "desc" }, { id: "asc" }],
      take: TIMELINE_ROWS + 1,
      ...(input.after ? { cursor: { id: input.after }, skip: 1 } : {}),
      select: {
        id: true, filmedOn: true, task: true, effort: true, pitchHeight: true,
        clips: { select: { id: true, view: true }, orderBy: [{ createdAt: "asc" }, { id: "asc" }] },
        observations: { where: { replacedAt: null }, orderBy: [{ calledAt: "asc" }, { id: "asc" }], select: { faultId: true, state: true } },
      },
    });
    const counts = await db.swing.groupBy({ by: ["side"], where: { academyId, playerId }, _count: true, _max: { filmedOn: true } });
    const { task } = library.parts.terms.lists;
    const swings = found.slice(0, TIMELINE_ROWS).map((row) => ({
      id: row.id,
      filmedOn: dayOf(row.filmedOn),
      task: termOf(task, row.task),
      clips: row.clips.map((clip) => ({ ...clip, posterUrl: clipAddress.poster(clip.id) })),
      calls: [...new Map(row.observations.map(({ faultId, state }) => [faultId, state as Sight]))].map(([faultId, state]) => ({ name: nameOf(library, faultId), state })),
    }));
    const newest = counts.find(({ side }) => side === input.side)?._max.filmedOn;
    return {
      focus: focusPair(library.parts, foci, await readClicked(db, academyId, [playerId])),
      askFirst: toAsk ? askFirstView(library.parts, toAsk.id, "not-asked") : null,
      swings,
      next: found.length > TIMELINE_ROWS ? (swings.at(-1)?.id ?? null) : null,
      swingCounts: counts.map(({ side, _count }) => ({ side: side as Side, count: _count })),
      lastSwingOn: newest ? dayOf(newest) : null,
    };
  },
});

/** More rows than a day has lessons. */
const CAGE_DAY_ROWS = 40;
const WEEK_MS = 7 * 86_400_000;

/** The players a coach teaches, the one filmed last first; then those who have not been filmed yet. */
export const listCageDay = defineQuery({
  name: "observations.list-cage-day",
  input: cageDayForm,
  policy: mayInAcademy<z.infer<typeof cageDayForm>, "reasoning.list-cage-day">(mayListCageDay),
  run: async ({ actor, db }): Promise<CageDayRow[]> => {
    const { academyId } = actor;
    const taught = { AND: [taughtPlayersScope(actor), { leftAt: null }] };
    const filmed = await db.swing.groupBy({
      by: ["playerId"], where: { academyId, player: taught }, _max: { filmedOn: true, createdAt: true },
      orderBy: [{ _max: { createdAt: "desc" } }, { playerId: "asc" }], take: CAGE_DAY_ROWS,
    });
    const recent = filmed.map(({ playerId }) => playerId);
    const players = await db.player.findMany({
      where: { AND: [taught, { OR: [{ id: { in: recent } }, { swings: { none: {} } }] }] },
      orderBy: [{ familyName: "asc" }, { givenName: "asc" }, { id: "asc" }],
      take: 2 * CAGE_DAY_ROWS,
      select: {
        id: true, givenName: true, familyName: true, birthDate: true, sport: true,
        location: { select: { timeZone: true } },
        sides: { select: { side: true }, orderBy: { side: "desc" } },
        permits: { where: { use: "lesson" }, select: { validUntil: true } },
        _count: { select: { pauses: { where: openPause } } },
      },
    });
    const foci = await readFoci(db, academyId, players.map(({ id }) => id));
    const library = await readLibraryForRanking(db, academyId);
    const clicked = await readClicked(db, academyId, players.map(({ id }) => id));
    const place = new Map(recent.map((id, index) => [id, index]));
    const lastOf = new Map(filmed.map(({ playerId, _max }) => [playerId, _max.filmedOn]));
    const ordered = players.sort((a, b) => (place.get(a.id) ?? CAGE_DAY_ROWS) - (place.get(b.id) ?? CAGE_DAY_ROWS)).slice(0, CAGE_DAY_ROWS);
    return ordered.map((row): CageDayRow => {
      const today = todayIn(row.location.timeZone);
      const last = lastOf.get(row.id);
      const own = library ? focusPair(library.parts, foci.filter(({ playerId, state }) => playerId === row.id && state === "active"), clicked).active : [];
      const sideOf = (id: Id) => (foci.find((focus) => focus.id === id)?.side === "left" ? "left" : "right");
      return {
        playerId: row.id,
        name: `${row.givenName} ${row.familyName}`,
        ageYears: ageYears(dayOf(row.birthDate), today),
        sport: row.sport as Sport,
        sides: row.sides.map(({ side }) => side as Side),
        foci: own.map(({ id, name, cue }) => ({ side: sideOf(id), name, cue })),
        weeksSinceSwing: last ? Math.max(0, Math.floor((dayValue(today).getTime() - last.getTime()) / WEEK_MS)) : null,
        isPaused: row._count.pauses > 0,
        mayBeFilmed: row.permits.some((permit) => dayOf(permit.validUntil) > today),
      };
    });
  },
});
