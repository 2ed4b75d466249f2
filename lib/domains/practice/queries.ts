import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may, mayInAcademy } from "@/lib/access/guard";
import { ageYears, isMinor, levelOfAge } from "@/lib/core/age";
import { sayIn } from "@/lib/core/words/catalogue";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { readLoads } from "@/lib/domains/library/scope";
import { readTranslations } from "@/lib/domains/library/translations/scope";
import { swingsNow } from "@/lib/domains/roster/loads/rules";
import { readSwingLogs } from "@/lib/domains/roster/loads/scope";
import { fieldCautions, textsOfTables } from "@/lib/prescribe/field-cautions";
import { swingCaps } from "@/lib/prescribe/swing-load";
import { listSentPlans } from "@/lib/domains/plans/queries";
import { wordsOf } from "@/lib/domains/plans/schema";
import { clearPauseAsFamily, type PlayerSubject } from "@/lib/domains/roster/policy";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import { dayOf, dayValue, daysAfter } from "@/lib/core/days";
import { todayIn } from "@/lib/platform/clock";
import type { Database, Prisma } from "@/lib/platform/database";
import { listCounts, seeCounts, seeFamilyPages, seeParentsPage } from "./policy";
import { showsNumbers, totalsOf, weekOf } from "./rules";
import { listCountsForm, playerIdForm, playerSideForm, todayForm, weekForm } from "./schema";
import { countedPlayersScope, familyPlayerSelect, inForce, readDoneRight, readEverDone, readTold, readWatchers, type FamilyPlayerRow } from "./scope";
import {
  countView, homeworkView, stopViews,
  type HomeworkCounts, type LogRow, type ParentsView, type StopsView, type TodayView, type WeekView,
} from "./view";

type In<Form extends z.ZodType> = z.infer<Form>;
const playerOf = <Input extends { playerId: Id }>(input: Input, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

async function readFamilyPlayer(db: Database, actor: Person, subject: PlayerSubject): Promise<{ row: FamilyPlayerRow; today: string; view: StopsView }> {
  const row = await db.player.findUniqueOrThrow({ where: { id: subject.id }, select: familyPlayerSelect });
  const today = todayIn(row.location.timeZone);
  const reporters = await db.user.findMany({
    where: { academyId: row.academyId, id: { in: row.pauses.flatMap(({ painReport, incident }) => painReport?.reportedById ?? incident?.notedById ?? []) } },
    select: { id: true, displayName: true },
  });
  const told = await readTold(db, row.academyId, row.pauses.map(({ id }) => id));
  const view = {
    playerId: row.id,
    givenName: row.givenName,
    isAdult: !isMinor(ageYears(subject.birthDate, today)),
    canClear: clearPauseAsFamily.allows(actor, subject),
    stops: stopViews(row, new Map(reporters.map((user) => [user.id, user.displayName])), told),
  };
  return { row, today, view };
}

async function readLogs(db: Database, where: Prisma.PracticeLogWhereInput): Promise<LogRow[]> {
  const rows = await db.practiceLog.findMany({ where: { AND: [where, inForce] }, orderBy: [{ day: "asc" }, { loggedAt: "asc" }, { id: "asc" }], select: { planDrillId: true, day: true, times: true, swings: true } });
  return rows.map((row) => ({ ...row, day: dayOf(row.day) }));
}

const within = (days: readonly string[]) => ({ in: days.map(dayValue) });

/** The family's first page: what was kept, the one thing, today's drills and what is counted of them. */
export const getToday = defineQuery({
  name: "practice.get-today",
  input: todayForm,
  policy: may<In<typeof todayForm>, PlayerSubject, "practice.see-family-pages">(seeFamilyPages, playerOf),
  run: async ({ actor, input, granted, db }): Promise<TodayView> => {
    const { row, today, view } = await readFamilyPlayer(db, actor, granted);
    const plans = await listSentPlans.as(actor, { playerId: granted.id }, db);
    const shown = plans.find(({ plan }) => plan.id === input.planId) ?? plans[0] ?? null;
    const week = weekOf(today);
    const { academyId, id: playerId } = granted;
    const lastSeven = Array.from({ length: 7 }, (_, index) => daysAfter(today, -index));
    const logs = await readLogs(db, { academyId, playerId, day: within([...new Set([...week, ...lastSeven])]) });
    const years = ageYears(granted.birthDate, today);
    const loads = await readLoads(db, academyId);
    const caps = loads ? swingCaps(levelOfAge(years, row.hasLeftSchool), years, loads.swings, view.stops.length > 0) : { perDay: Infinity, perWeek: Infinity };
    const shownDrills = shown?.plan.drills ?? [];
    const everDone = await readEverDone(db, academyId, shownDrills.map(({ id }) => id));
    const elsewhere = await readSwingLogs(db, academyId, playerId, today, 7);
    const doneRight = await readDoneRight(db, academyId, playerId, shownDrills.map(({ id }) => id), today);
    return {
      ...view,
      today,
      showsNumbers: showsNumbers(years),
      choices: plans.map(({ note, plan }) => ({ planId: plan.id, side: plan.side, oneThing: note.oneThing, isShown: plan.id === shown?.plan.id })),
      note: shown?.note ?? null,
      week: totalsOf(logs, week[0] ?? today, week.at(-1) ?? today),
      load: swingsNow([...logs.map(({ day, swings }) => ({ day, swings, source: "home" as const })), ...elsewhere], today, caps),
      fieldCautions: loads && view.stops.length === 0 ? fieldCautions(shownDrills.map(({ setup }) => setup), years, loads, sayIn(actor.language, await readTranslations(db, academyId, actor.language, textsOfTables(loads)))) : [],
      ...homeworkView(shown, logs.filter(({ day }) => week.includes(day)), week, today, view.stops.length > 0, everDone, doneRight),
    };
  },
});

/** Why swings stop, who was told, and what clears it. */
export const getStops = defineQuery({
  name: "practice.get-stops",
  input: playerIdForm,
  policy: may<In<typeof playerIdForm>, PlayerSubject, "practice.see-family-pages">(seeFamilyPages, playerOf),
  run: async ({ actor, granted, db }): Promise<StopsView> => (await readFamilyPlayer(db, actor, granted)).view,
});

/** One page for a parent: what is worked on, what was done, whether swings stop, who looked at clips. */
export const getParentsPage = defineQuery({
  name: "practice.get-parents-page",
  input: playerIdForm,
  policy: may<In<typeof playerIdForm>, PlayerSubject, "practice.see-parents-page">(seeParentsPage, playerOf),
  run: async ({ actor, granted, db }): Promise<ParentsView> => {
    const { row, today, view } = await readFamilyPlayer(db, actor, granted);
    const plans = await listSentPlans.as(actor, { playerId: granted.id }, db);
    const week = weekOf(today);
    const logs = await readLogs(db, {
      academyId: granted.academyId, playerId: granted.id,
      OR: [{ day: within(week) }, { planDrillId: { in: plans.flatMap(({ plan }) => plan.drills.map(({ id }) => id)) } }],
    });
    const watchers = await readWatchers(db, granted.academyId, granted.id, row.location.timeZone);
    return {
      ...view,
      name: `${row.givenName} ${row.familyName}`,
      today,
      plans: plans.map(({ note, plan }) => ({ note, count: countView({ ...plan, drillIds: plan.drills.map(({ id }) => id) }, logs) })),
      week: totalsOf(logs, week[0] ?? today, week.at(-1) ?? today),
      watchers: [...new Set(watchers.map(({ day }) => day))].map((day) => ({ day, names: watchers.filter((seen) => seen.day === day).map(({ name }) => name) })),
    };
  },
});

async function readCounts(db: Database, academyId: Id, players: readonly { id: Id; location: { timeZone: string } }[], side?: string): Promise<HomeworkCounts[]> {
  const playerId = { in: players.map(({ id }) => id) };
  const plans = await db.plan.findMany({
    where: { academyId, playerId, side, state: "sent" },
    orderBy: [{ sentAt: "desc" }, { id: "asc" }],
    select: { id: true, playerId: true, side: true, startsOn: true, endsOn: true, daysPerWeek: true, drills: { select: { id: true } } },
  });
  const drillIds = plans.flatMap(({ drills }) => drills.map(({ id }) => id));
  const weeks = new Map(players.map(({ id, location }) => [id, weekOf(todayIn(location.timeZone))]));
  const rows = await db.practiceLog.findMany({
    where: { academyId, playerId, ...inForce, OR: [{ planDrillId: { in: drillIds } }, { day: within([...new Set([...weeks.values()].flat())]) }] },
    select: { playerId: true, planDrillId: true, day: true, times: true, swings: true },
  });
  const logs = rows.map((row) => ({ ...row, day: dayOf(row.day) }));
  return players.map(({ id }) => {
    const mine = logs.filter((row) => row.playerId === id);
    const week = weeks.get(id) ?? [];
    return {
      playerId: id,
      plans: plans
        .filter((plan) => plan.playerId === id)
        .map((plan) => countView({ ...plan, startsOn: dayOf(plan.startsOn), endsOn: dayOf(plan.endsOn), drillIds: plan.drills.map((drill) => drill.id) }, mine)),
      week: totalsOf(mine, week[0] ?? "", week.at(-1) ?? ""),
    };
  });
}

/** What was done on a side: days of the plans in force, newest plan first, and the week in all (both sides). */
export const getHomeworkCounts = defineQuery({
  name: "practice.get-homework-counts",
  input: playerSideForm,
  policy: may<In<typeof playerSideForm>, PlayerSubject, "practice.see-counts">(seeCounts, playerOf),
  run: async ({ input, granted, db }): Promise<HomeworkCounts> => {
    const player = await db.player.findUniqueOrThrow({ where: { id: granted.id }, select: { id: true, location: { select: { timeZone: true } } } });
    const [counts] = await readCounts(db, granted.academyId, [player], input.side);
    if (!counts) throw new NotFoundError("player");
    return counts;
  },
});

/** The same for many players at once, all sides, in a fixed number of queries; of who is not taught by the actor, nothing. */
export const listHomeworkCounts = defineQuery({
  name: "practice.list-homework-counts",
  input: listCountsForm,
  policy: mayInAcademy<In<typeof listCountsForm>, "practice.list-counts">(listCounts),
  run: async ({ actor, input, db }): Promise<HomeworkCounts[]> => {
    const players = await db.player.findMany({
      where: { AND: [countedPlayersScope(actor), { id: { in: input.playerIds } }] },
      orderBy: { id: "asc" },
      select: { id: true, location: { select: { timeZone: true } } },
    });
    return readCounts(db, actor.academyId, players);
  },
});

/** Monday to Sunday around a day (today unless one is named), drill by drill, with the totals. */
export const listWeek = defineQuery({
  name: "practice.list-week",
  input: weekForm,
  policy: may<In<typeof weekForm>, PlayerSubject, "practice.see-counts">(seeCounts, playerOf),
  run: async ({ input, granted, db }): Promise<WeekView> => {
    const { location } = await db.player.findUniqueOrThrow({ where: { id: granted.id }, select: { location: { select: { timeZone: true } } } });
    const week = weekOf(input.day ?? todayIn(location.timeZone));
    const rows = await db.practiceLog.findMany({
      where: { academyId: granted.academyId, playerId: granted.id, day: within(week), ...inForce },
      orderBy: [{ loggedAt: "asc" }, { id: "asc" }],
      select: { planDrillId: true, day: true, times: true, swings: true, planDrill: { select: { words: true } } },
    });
    const logs = rows.map(({ planDrill, day, ...row }) => ({ ...row, day: dayOf(day), name: wordsOf(planDrill.words).name }));
    return {
      days: week.map((day) => {
        const { times, swings } = totalsOf(logs, day, day);
        return { day, times, swings, drills: logs.filter((row) => row.day === day && row.times > 0).map(({ day: _day, ...drill }) => drill) };
      }),
      total: totalsOf(logs, week[0] ?? "", week.at(-1) ?? ""),
    };
  },
});
