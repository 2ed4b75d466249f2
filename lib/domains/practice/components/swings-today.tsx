import type { TodayView } from "../view";

const SOURCE_WORDS = { home: "home", team: "team", lessons: "lessons", games: "games" } as const;

/** Swings of all sources against the caps: when none are left, rest is the homework. Below eleven without numbers. */
export function SwingsToday({ view }: { view: TodayView }) {
  const { load, showsNumbers } = view;
  const isSwinging = view.drills.some(({ isSwing, otherDays }) => isSwing && otherDays === null);
  if (load.left === 0 && load.sevenDays > 0) {
    return (
      <p className="trouble small">
        <b>You have swung a lot.</b> No more swings today. Do the drills without a bat, or rest.
      </p>
    );
  }
  if (!showsNumbers || !isSwinging || load.sevenDays === 0) return null;
  const sources = load.bySource.map(({ source, swings }) => `${SOURCE_WORDS[source]} ${swings}`).join(", ");
  return (
    <p className="small quiet">
      {load.sevenDays} swings in the last seven days ({sources}). Today at most {load.left} more.
    </p>
  );
}
