import type { Actor } from "@/lib/access/actor";
import { isPerson } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import { findEditionInForce, readEdition } from "@/lib/domains/library/scope";
import type { LibraryParts } from "@/lib/domains/library/schema";
import type { Side } from "@/lib/domains/roster/rules";
import { playersScope } from "@/lib/domains/roster/scope";
import type { PlayerFacts } from "@/lib/domains/roster/view";
import type { Reading } from "@/lib/measure/reading";
import type { Database, Prisma } from "@/lib/platform/database";
import type { TalliedBall } from "@/lib/reason/tally";
import type { Sight } from "@/lib/reason/types";
import { swingsLikeNewest, type GivenEvidence, type SwingReading } from "./rules";

const NO_ROW: Prisma.PlayerWhereInput = { id: { in: [] } };

/** The players of whose calls and focus this actor may know: the same answer as "reasoning.see", as a condition on rows. */
export function taughtPlayersScope(actor: Actor): Prisma.PlayerWhereInput {
  return isPerson(actor) && (actor.role === "coach" || actor.role === "head-coach") ? playersScope(actor) : NO_ROW;
}

/** The edition in force with what the ranking needs of it. */
export interface RankingLibrary {
  readonly editionId: Id;
  readonly number: number;
  readonly parts: LibraryParts;
  readonly retired: ReadonlySet<string>;
}

/** The edition in force; null before a library was imported. */
export async function readLibraryForRanking(db: Database, academyId: Id): Promise<RankingLibrary | null> {
  const edition = await findEditionInForce(db, academyId);
  if (!edition) return null;
  const parts = await readEdition(db, academyId, edition.id);
  const retired = await db.fault.findMany({ where: { academyId, retiredAt: { not: null } }, select: { id: true } });
  return { editionId: edition.id, number: edition.number, parts, retired: new Set(retired.map(({ id }) => id)) };
}

/** More swings of one side than anybody compares. */
const MOST_SWINGS = 60;

/** What is needed of a swing to compare it, and its clips. */
export const swingSelect = {
  id: true, playerId: true, side: true, swingKind: true, task: true, effort: true, pitchHeight: true, pitchSide: true, pitchSpeed: true, batClass: true, filmedOn: true,
  clips: { select: { id: true, view: true }, orderBy: [{ createdAt: "asc" }, { id: "asc" }] },
} satisfies Prisma.SwingSelect;

async function readSwings(db: Database, academyId: Id, playerId: Id, side: Side) {
  const rows = await db.swing.findMany({
    where: { academyId, playerId, side },
    orderBy: [{ filmedOn: "desc" }, { createdAt: "desc" }, { id: "asc" }],
    take: MOST_SWINGS,
    select: swingSelect,
  });
  return rows.map((row) => ({ ...row, filmedOn: row.filmedOn.toISOString().slice(0, 10) }));
}

export type SwingRow = Awaited<ReturnType<typeof readSwings>>[number];

/** A stored reading with what a page shows of it. */
export interface StoredReading extends SwingReading {
  readonly clipId: Id;
  readonly inputsHash: string;
  readonly body: Reading;
}

/** The readings of some swings, as they are now. */
export async function readReadings(db: Database, academyId: Id, swingIds: readonly Id[]): Promise<StoredReading[]> {
  const rows = await db.reading.findMany({
    where: { academyId, swingId: { in: [...swingIds] } },
    orderBy: [{ swingId: "asc" }, { checkpointId: "asc" }, { clipId: "asc" }],
    select: { swingId: true, clipId: true, checkpointId: true, inputsHash: true, body: true },
  });
  return rows.map(({ body, ...row }) => {
    // Readings are written by the measuring code in its own form, and made anew when the form changes.
    const reading = body as unknown as Reading;
    const { value, sd, sdCamera, verdict, isGrey } = reading;
    return { ...row, value, sd: sd === null ? null : Math.hypot(sd, sdCamera), verdict, isGrey, body: reading };
  });
}

const inForce = { replacedAt: null };

/** Most balls of one side and kind of swing that are looked at: more than thirty days hold. */
const MOST_BALLS = 2000;
const ballSelect = {
  id: true, day: true, task: true, swingKind: true, pitchHeight: true, pitchSide: true, pitchSpeed: true, act: true, quality: true, direction: true, height: true,
  timing: true, spot: true, curve: true, notedById: true,
} satisfies Prisma.TallyBallSelect;

/** The balls of a side's tally, newest first: of one kind of swing, or of all. */
export async function readBalls(db: Database, academyId: Id, playerId: Id, side: Side, kind: string | null) {
  return db.tallyBall.findMany({
    where: { academyId, playerId, side, takenBackAt: null, ...(kind ? { swingKind: kind } : {}) },
    orderBy: [{ day: "desc" }, { notedAt: "desc" }, { id: "asc" }],
    take: MOST_BALLS,
    select: ballSelect,
  });
}

export type BallRow = Awaited<ReturnType<typeof readBalls>>[number];

/** A ball as the tally's rule reads it: what the library calls unknown is nobody's word. */
export function talliedBall({ day, id: _id, notedById: _by, ...facts }: BallRow): TalliedBall {
  const known = Object.entries(facts).map(([fact, value]): [string, string | null] => [fact, value === "unknown" ? null : value]);
  return { day: day.toISOString().slice(0, 10), facts: Object.fromEntries(known) };
}

/** All that is known of a player's side, in a fixed number of queries. Of a kind of swing: evidence of two kinds is not mixed. */
export async function readEvidence(db: Database, facts: PlayerFacts, academyId: Id, side: Side, library: RankingLibrary, wanted?: string) {
  const ofSide = { academyId, playerId: facts.playerId, side };
  const all = await readSwings(db, academyId, facts.playerId, side);
  const kinds = [...new Set(all.map(({ swingKind }) => swingKind))];
  const kind = (wanted !== undefined && kinds.includes(wanted) ? wanted : kinds[0]) ?? null;
  const swings = swingsLikeNewest(all.filter(({ swingKind }) => swingKind === kind), library.parts.terms.comparableRule);
  const swingIds = swings.map(({ id }) => id);
  const observations = await db.observation.findMany({
    where: { academyId, swingId: { in: swingIds }, ...inForce },
    orderBy: [{ calledAt: "asc" }, { id: "asc" }],
  });
  const answers = await db.causeAnswer.findMany({ where: { ...ofSide, ...inForce }, orderBy: { id: "asc" } });
  const overrules = await db.overrule.findMany({ where: { ...ofSide, undoneAt: null }, orderBy: [{ at: "asc" }, { id: "asc" }] });
  const readings = await readReadings(db, academyId, swingIds);
  const questionAnswers = await db.questionAnswer.findMany({ where: { ...ofSide, ...inForce }, orderBy: { id: "asc" } });
  const symptomCalls = await db.symptomCall.findMany({ where: { ...ofSide, ...inForce }, orderBy: { id: "asc" } });
  const balls = await readBalls(db, academyId, facts.playerId, side, kind);
  const given: GivenEvidence = {
    parts: library.parts,
    retired: library.retired,
    facts,
    isSlapper: facts.sides.find((known) => known.side === side)?.isSlapper ?? false,
    swings,
    calls: observations.map(({ id, swingId, faultId, state, calledAt }) => ({ id, swingId, faultId, calledAt, state: state as Sight })),
    readings,
    answers,
    questionAnswers: questionAnswers.map(({ id, questionId, answerId, answeredOn }) => ({ id, questionId, answerId, answeredOn: answeredOn.toISOString().slice(0, 10) })),
    symptomCalls: symptomCalls.map(({ id, symptomId, state }) => ({ id, symptomId, state: state as Sight })),
    balls: balls.map(talliedBall),
    overruled: overrules.map(({ faultId }) => faultId),
  };
  return { given, swings, kind, kinds, observations, answers, questionAnswers, overrules, readings };
}

export type SideEvidence = Awaited<ReturnType<typeof readEvidence>>;

/** What is in focus and what is parked, first chosen first. */
export async function readFoci(db: Database, academyId: Id, playerIds: readonly Id[], side?: Side) {
  return db.focus.findMany({
    where: { academyId, playerId: { in: [...playerIds] }, side, state: { in: ["active", "parked"] } },
    orderBy: [{ slot: "asc" }, { changedAt: "asc" }, { id: "asc" }],
  });
}

export type FocusRow = Awaited<ReturnType<typeof readFoci>>[number];

export async function namesOfUsers(db: Database, academyId: Id, ids: readonly Id[]): Promise<ReadonlyMap<Id, string>> {
  const users = await db.user.findMany({ where: { academyId, id: { in: [...new Set(ids)] } }, select: { id: true, displayName: true } });
  return new Map(users.map((user) => [user.id, user.displayName]));
}

/** The words that clicked, in force, of some players. */
export async function readClicked(db: Database, academyId: Id, playerIds: readonly Id[]) {
  return db.clickedCue.findMany({ where: { academyId, playerId: { in: [...playerIds] }, replacedAt: null }, orderBy: { id: "asc" }, select: { playerId: true, side: true, faultId: true, cue: true } });
}

export type ClickedRow = Awaited<ReturnType<typeof readClicked>>[number];
