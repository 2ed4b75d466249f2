import type { Say } from "@/lib/core/words/say";
import type { TodayView } from "../view";

const SOURCE_WORDS = { home: "home", team: "team", lessons: "lessons", games: "games" } as const;

/** Swings of all sources against the caps: when none are left, rest is the homework. Below eleven without numbers. */
export function SwingsToday({ view, say }: { view: TodayView; say: Say }) {
  const { load, showsNumbers } = view;
  const isSwinging = view.drills.some(({ isSwing, otherDays }) => isSwing && otherDays === null);
  if (load.left === 0 && load.sevenDays > 0) {
    return (
      <p className="trouble small">
        <b>{say("You have swung a lot.")}</b> {say("No more swings today. Do the drills without a bat, or rest.")}
      </p>
    );
  }
  if (!showsNumbers || !isSwinging || load.sevenDays === 0) return null;
  const sources = load.bySource.map(({ source, swings }) => `${say(SOURCE_WORDS[source])} ${swings}`).join(", ");
  return (
    <p className="small quiet">
      {say("{count, plural, one {# swing} other {# swings}} in the last seven days ({sources}). Today at most {left} more.", { count: load.sevenDays, sources, left: load.left })}
    </p>
  );
}
