import { minutesOf, swingRoom, type Candidate, type DayCount, type WeekRequest } from "./request";

/** In every week that lies on days, Σ weight · days of these drills is at most `most`; drills that are not named weigh nothing. */
export interface DayCut {
  readonly weights: ReadonlyMap<Candidate, number>;
  readonly most: number;
}

interface Weighed {
  readonly candidate: Candidate;
  readonly minutes: number;
  readonly swings: number;
  readonly weight: number;
}

const weighed = (candidate: Candidate, weight: number): Weighed => ({ candidate, weight, minutes: minutesOf(candidate.drill), swings: candidate.drill.dose.fullSwings });

/** Weights are tried from 0 up to these, one after the other: small ones nearly always do. */
const LARGEST_WEIGHTS = [1, 2, 4] as const;

/** How many swings a day can hold, each once and 0 with them, and the heaviest week from the heaviest day of each. */
function daysOf(request: WeekRequest): { readonly rooms: readonly number[]; readonly heaviestWeek: (heaviest: readonly number[]) => number } {
  const { byDay, busyDays, freeSwingDays } = swingRoom(request);
  const rooms = [...new Set([...byDay, 0])];
  return {
    rooms,
    heaviestWeek: (heaviest) => {
      const of = (room: number) => heaviest[rooms.indexOf(room)] ?? 0;
      const isBusy = (index: number) => busyDays.includes(index + 1);
      const free = byDay.filter((_, index) => !isBusy(index)).map(of).sort((a, b) => b - a);
      // Free days beyond those that may become swing days hold what has no swings.
      const days = [...byDay.filter((_, index) => isBusy(index)).map(of), ...free.map((most, rank) => (rank < freeSwingDays ? most : of(0)))];
      return days.sort((a, b) => b - a).slice(0, request.daysPerWeek).reduce((sum, most) => sum + most, 0);
    },
  };
}

/** The most weight on one day: of each drill one dose at most, within minutes, swings and the number of drills. */
function heaviestDay(byDrill: readonly (readonly Weighed[])[], minutes: number, swings: number, drills: number, from = 0): number {
  let most = 0;
  for (let index = from; drills > 0 && index < byDrill.length; index++) {
    for (const one of byDrill[index] ?? []) {
      if (one.minutes > minutes || one.swings > swings) continue;
      most = Math.max(most, one.weight + heaviestDay(byDrill, minutes - one.minutes, swings - one.swings, drills - 1, index + 1));
    }
  }
  return most;
}

interface Found {
  readonly weights: readonly number[];
  /** The heaviest day for each room of swings. */
  readonly heaviest: readonly number[];
  readonly most: number;
}

/** Whole weights of the choice's own drills by which it is heavier than any week; the clearest of the smallest that there are. */
function weightsAgainst(request: WeekRequest, choice: readonly DayCount[]): Found | null {
  const { rooms, heaviestWeek } = daysOf(request);
  const own = choice.map(({ candidate }) => weighed(candidate, 0));
  const sets = Array.from({ length: 1 << own.length }, (_, set) => own.flatMap((_, index) => (set & (1 << index) ? [index] : [])));
  const fitting = rooms.map((room) =>
    sets.filter((set) => set.reduce((sum, index) => sum + (own[index]?.minutes ?? 0), 0) <= request.minutesPerDay && set.reduce((sum, index) => sum + (own[index]?.swings ?? 0), 0) <= room),
  );
  for (const largest of LARGEST_WEIGHTS) {
    let [best, clearest]: [Found | null, number] = [null, 1];
    for (let code = 1; code < (largest + 1) ** own.length; code++) {
      const weights = own.map((_, index) => Math.floor(code / (largest + 1) ** index) % (largest + 1));
      const heaviest = fitting.map((days) => days.reduce((most, set) => Math.max(most, set.reduce((sum, index) => sum + (weights[index] ?? 0), 0)), 0));
      const most = heaviestWeek(heaviest);
      const over = choice.reduce((sum, { days }, index) => sum + days * (weights[index] ?? 0), 0) / most;
      if (over > clearest + 1e-9) [best, clearest] = [{ weights, heaviest, most }, over];
    }
    if (best) return best;
  }
  return null;
}

/**
 * A rule that every week keeps and this choice does not: drills get weights so that no day can hold more than a certain sum. Drills
 * outside the choice, the worthiest first, get the largest weight by which no day becomes heavier, so that one cut rules out much more
 * than the one choice. Null when no small weights tell the choice from a week.
 */
export function cutAgainst(request: WeekRequest, choice: readonly DayCount[]): DayCut | null {
  const found = weightsAgainst(request, choice);
  if (!found) return null;
  const { rooms } = daysOf(request);
  const heavy = choice.flatMap(({ candidate }, index) => (found.weights[index] ? [weighed(candidate, found.weights[index])] : []));
  const light = request.candidates.filter((one) => !choice.some(({ candidate }) => candidate === one)).sort((a, b) => b.effect - a.effect);
  for (const candidate of light) {
    const { minutes, swings } = weighed(candidate, 0);
    const others = heavy.filter((one) => one.candidate.drill.id !== candidate.drill.id);
    const byDrill = [...new Set(others.map((one) => one.candidate.drill.id))].map((id) => others.filter((one) => one.candidate.drill.id === id));
    const spare = rooms.flatMap((room, index) =>
      minutes > request.minutesPerDay || swings > room ? [] : [(found.heaviest[index] ?? 0) - heaviestDay(byDrill, request.minutesPerDay - minutes, room - swings, request.mostDrills - 1)],
    );
    const weight = spare.length > 0 ? Math.min(...spare) : 0;
    if (weight > 0) heavy.push(weighed(candidate, weight));
  }
  return { weights: new Map(heavy.map(({ candidate, weight }) => [candidate, weight])), most: found.most };
}
