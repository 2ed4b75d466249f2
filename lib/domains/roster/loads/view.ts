import type { Id } from "@/lib/core/ids";
import { english, type Say } from "@/lib/core/words/say";
import type { SwingsElsewhere } from "@/lib/prescribe/week/request";
import { SOURCE_WORDS, SWING_SOURCES, type SwingSourceId } from "./rules";

/** What one source brings in a usual week. */
export interface SourceView {
  readonly source: SwingSourceId;
  readonly weekdays: readonly number[];
  readonly swingsEach: number;
}

/** What was swung on a day outside homework. */
export interface SwingLogView {
  readonly id: Id;
  readonly day: string;
  readonly source: SwingSourceId;
  readonly swings: number;
  readonly isGuess: boolean;
}

const WEEKDAY_NAMES = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;

export function weekdayName(weekday: number, say: Say = english): string {
  const name = WEEKDAY_NAMES[weekday - 1];
  return name ? say(name) : "";
}

/** "Monday, Wednesday and Friday"; empty for no days. */
export function weekdayWords(weekdays: readonly number[], say: Say = english): string {
  return say.list(weekdays.map((weekday) => weekdayName(weekday, say)));
}

/** A usual week elsewhere as the optimiser counts it; null while any source was not asked for. */
export function elsewhereOf(sources: readonly SourceView[]): SwingsElsewhere[] | null {
  if (SWING_SOURCES.some((source) => !sources.some((one) => one.source === source))) return null;
  return sources.map(({ source, weekdays, swingsEach }) => ({ name: SOURCE_WORDS[source], weekdays, swingsEach }));
}

/** A usual week in one line. */
export function elsewhereWords(sources: readonly SourceView[], say: Say = english): string {
  if (elsewhereOf(sources) === null) return say("not asked yet");
  const named = SWING_SOURCES.flatMap((source) => {
    const one = sources.find((found) => found.source === source);
    return one && one.weekdays.length * one.swingsEach > 0 ? [`${say(SOURCE_WORDS[source])} ${one.weekdays.length} × ${one.swingsEach}`] : [];
  });
  return named.length > 0 ? named.join(", ") : say("none in a usual week");
}
