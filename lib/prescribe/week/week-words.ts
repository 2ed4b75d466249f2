import type { Drill, DrillPlayer, GearCatalogue } from "../drill";
import { gearNames, missingGear } from "../gear";
import { brokenLimits, type LimitId } from "../limits";
import { mostDays } from "./choose-drills";
import type { Week } from "./plan-week";
import { minutesOf, swingRoom, WEEKDAYS, type WeekRequest } from "./request";

const times = (count: number) => (count === 1 ? "once a week" : count === 2 ? "twice a week" : `${count} times a week`);

/** Why a drill is in the week, in one or two sentences. */
export function whyIn({ candidate, kind, weekdays }: Week["drills"][number]): string {
  const half = candidate.isHalf ? " Half the usual dose, since the whole does not fit." : "";
  const part = { easy: "The easy one to begin with. ", transfer: "Carries it over to the game. ", between: "" }[kind];
  return `${part}${candidate.why} ${times(weekdays.length).replace(/^./, (letter) => letter.toUpperCase())}.${half}`;
}

/** A limit of the week, as opposed to the hard limits of a drill. */
export type WeekLimit = "minutes" | "swings-day" | "swings-week" | "swing-days" | "drill-count";

export interface NotTaken<D extends Drill = Drill> {
  readonly drill: D;
  readonly limit: WeekLimit;
  readonly words: string;
}

function sourcesWords(request: WeekRequest): string {
  const named = request.elsewhere.filter(({ weekdays, swingsEach }) => weekdays.length * swingsEach > 0).map(({ name, weekdays, swingsEach }) => `${name} ${weekdays.length * swingsEach}`);
  return named.length > 0 ? ` Elsewhere a week: ${named.join(" + ")}.` : "";
}

/** Which limit of the week keeps out a drill that the hard limits allow; null when it would still fit on some day. */
function limitOf(request: WeekRequest, week: Pick<Week, "drills">, drill: Drill): { limit: WeekLimit; words: string } | null {
  const swings = drill.dose.fullSwings;
  const minutes = minutesOf(drill);
  const room = swingRoom(request);
  if (minutes > request.minutesPerDay) return { limit: "minutes", words: `Takes ${minutes} minutes; there are ${request.minutesPerDay} a day.` };
  if (mostDays(request, drill) === 0) {
    const most = Math.max(0, ...room.byDay);
    if (swings > most) return { limit: "swings-day", words: `Brings ${swings} swings; ${most} are left on a day.${sourcesWords(request)}` };
    if (swings > room.week) return { limit: "swings-week", words: `Brings ${swings} swings; ${room.week} are left in the week.${sourcesWords(request)}` };
    return { limit: "swing-days", words: "No day is left for swings: two days of seven stay without." };
  }
  if (week.drills.length >= request.mostDrills) return { limit: "drill-count", words: `${request.mostDrills} drills are enough; those in the plan do more together.` };
  const usedOn = (weekday: number, of: (drill: Drill) => number) =>
    week.drills.filter(({ weekdays }) => weekdays.includes(weekday)).reduce((sum, { candidate }) => sum + of(candidate.drill), 0);
  const days = WEEKDAYS.filter((weekday) => week.drills.some(({ weekdays }) => weekdays.includes(weekday)));
  const open = days.length < request.daysPerWeek ? WEEKDAYS : days;
  const withTime = open.filter((weekday) => usedOn(weekday, minutesOf) + minutes <= request.minutesPerDay);
  if (withTime.length === 0) return { limit: "minutes", words: `No day has ${minutes} minutes left.` };
  const total = WEEKDAYS.reduce((sum, weekday) => sum + usedOn(weekday, ({ dose }) => dose.fullSwings), 0);
  if (total + swings > room.week) return { limit: "swings-week", words: `Brings ${swings} swings; ${room.week - total} are left in the week.${sourcesWords(request)}` };
  const withRoom = withTime.filter((weekday) => usedOn(weekday, ({ dose }) => dose.fullSwings) + swings <= (room.byDay[weekday - 1] ?? 0));
  if (withRoom.length === 0) return { limit: "swings-day", words: `Brings ${swings} swings; no day has so many left.${sourcesWords(request)}` };
  if (swings === 0) return null;
  const swingDays = WEEKDAYS.filter((weekday) => usedOn(weekday, ({ dose }) => dose.fullSwings) > 0 || room.busyDays.includes(weekday));
  const hasFree = swingDays.length < room.busyDays.length + room.freeSwingDays;
  if (withRoom.some((weekday) => hasFree || swingDays.includes(weekday))) return null;
  return { limit: "swing-days", words: "No further day is left for swings: two days of seven stay without." };
}

/** Every drill that may be done and is not in the week, with the limit that keeps it out; one that would fit is not among them. */
export function notTaken<D extends Drill>(request: WeekRequest<D>, week: Pick<Week, "drills">): NotTaken<D>[] {
  const taken = new Set(week.drills.map(({ candidate }) => candidate.drill.id));
  return request.candidates.filter(({ drill }) => !taken.has(drill.id)).flatMap(({ drill }) => {
    const reached = limitOf(request, week, drill);
    return reached ? [{ drill, ...reached }] : [];
  });
}

// ---- When nothing fits ---------------------------------------------------------------------------------------------

/** Limits that a family or a coach can change by what is at hand; all others stand. */
const AT_HAND: readonly LimitId[] = ["adult", "partner", "gear", "protection", "space", "cage"];

/** One change that would let drills in, and how many. */
export interface Relaxation {
  readonly words: string;
  readonly drills: number;
}

function changeFor(limit: LimitId, words: string, drill: Drill, player: DrillPlayer, catalogue: GearCatalogue): string {
  if (limit === "gear" || limit === "protection") {
    const missing = missingGear(drill.gear, player.gear, catalogue);
    if (missing.length > 0) return `With ${gearNames(missing, catalogue).join(" and ").toLowerCase()} at hand`;
  }
  if (limit === "space") return `With ${drill.spaceM.w} x ${drill.spaceM.l} m of free room`;
  if (limit === "cage") return "With a cage or an open field";
  return `If this is met – ${words.replace(/\.$/, "").replace(/^./, (letter) => letter.toLowerCase())}`;
}

/**
 * What to change when nothing fits: every single change after which a drill could be done, the one that lets most in
 * first. Limits for safety and age are never among them; when only those are in the way, they are said as they stand.
 */
export function relaxations(serving: readonly Drill[], player: DrillPlayer, catalogue: GearCatalogue, request: WeekRequest): Relaxation[] {
  const found = new Map<string, number>();
  const count = (words: string) => found.set(words, (found.get(words) ?? 0) + 1);
  for (const drill of serving) {
    const limits = brokenLimits(drill, player, catalogue);
    const [only] = limits;
    if (limits.length === 0) {
      const minutes = minutesOf(drill);
      if (minutes > request.minutesPerDay) count(`With ${minutes} minutes a day instead of ${request.minutesPerDay}`);
      else if (mostDays(request, drill) === 0) count(`With fewer swings elsewhere, or in a week without them`);
    } else if (only && limits.length === 1 && AT_HAND.includes(only.id)) count(changeFor(only.id, only.words, drill, player, catalogue));
  }
  if (found.size > 0) return [...found].map(([words, drills]) => ({ words, drills })).sort((a, b) => b.drills - a.drills || (a.words < b.words ? -1 : 1));
  const standing = new Set(serving.flatMap((drill) => brokenLimits(drill, player, catalogue).filter(({ id }) => !AT_HAND.includes(id)).map(({ words }) => words)));
  return [...standing].map((words) => ({ words: `This stands: ${words}`, drills: 0 }));
}

