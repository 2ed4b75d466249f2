/** Where swings come from besides homework. */
export const SWING_SOURCES = ["team", "lessons", "games"] as const;
export type SwingSourceId = (typeof SWING_SOURCES)[number];
export const SOURCE_WORDS = { team: "team", lessons: "lessons", games: "games" } as const satisfies Record<SwingSourceId, string>;

/** A game without a count is taken as this many swings. House rule, no source. */
export const SWINGS_OF_A_GAME = 15;
/** More than this of one source on one day is not counted. */
export const MOST_SWINGS_A_DAY = 500;
/** Swings can be written down afterwards for so many days. */
export const LOG_DAYS_BACK = 14;

/** What a count in a form stands for in full swings: swings under 60 % effort are halved, a game may go uncounted. */
export function fullSwingsOf(given: { readonly source: SwingSourceId; readonly swings: number | null; readonly isEasy: boolean }): { swings: number; isGuess: boolean } | null {
  if (given.swings === null) return given.source === "games" ? { swings: SWINGS_OF_A_GAME, isGuess: true } : null;
  return { swings: given.isEasy ? Math.ceil(given.swings / 2) : given.swings, isGuess: false };
}

/** Swings of one day by where they came from; `home` is homework. */
export interface DaySwings {
  readonly day: string;
  readonly source: SwingSourceId | "home";
  readonly swings: number;
}

export interface SwingsNow {
  /** This day's sum, and that of the seven days that end with it. */
  readonly today: number;
  readonly sevenDays: number;
  readonly bySource: readonly { readonly source: DaySwings["source"]; readonly swings: number }[];
  /** How many more may be swung today; never below 0. */
  readonly left: number;
}

/**
 * Full swings of the last seven days: homework as it was counted, and of each other source what was written down, or the usual
 * week as it was said where nothing was: unknown is never taken as nothing.
 */
export function swingsOfLastWeek(home: number, logs: readonly { readonly source: SwingSourceId; readonly swings: number }[], usual: readonly { readonly source: SwingSourceId; readonly weekdays: readonly number[]; readonly swingsEach: number }[]): number {
  return SWING_SOURCES.reduce((sum, source) => {
    const written = logs.filter((log) => log.source === source);
    if (written.length > 0) return sum + written.reduce((so, { swings }) => so + swings, 0);
    return sum + usual.filter((one) => one.source === source).reduce((so, { weekdays, swingsEach }) => so + weekdays.length * swingsEach, 0);
  }, home);
}

const dayNumber = (day: string) => Date.parse(`${day}T00:00:00Z`) / 86_400_000;

/** What has been swung, and what the caps leave of today: the day's own cap and that of any seven days in a row. */
export function swingsNow(rows: readonly DaySwings[], today: string, caps: { readonly perDay: number; readonly perWeek: number }): SwingsNow {
  const inSeven = rows.filter(({ day }) => dayNumber(day) <= dayNumber(today) && dayNumber(day) > dayNumber(today) - 7);
  const sum = (list: readonly DaySwings[]) => list.reduce((so, { swings }) => so + swings, 0);
  const ofToday = sum(inSeven.filter(({ day }) => day === today));
  const sources = ["home", ...SWING_SOURCES] as const;
  return {
    today: ofToday,
    sevenDays: sum(inSeven),
    bySource: sources.map((source) => ({ source, swings: sum(inSeven.filter((row) => row.source === source)) })).filter(({ swings }) => swings > 0),
    left: Math.max(0, Math.min(caps.perDay - ofToday, caps.perWeek - sum(inSeven))),
  };
}
