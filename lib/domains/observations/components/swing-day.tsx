import Link from "next/link";
import { Cut } from "@/lib/ui/cut";
import { Entry } from "@/lib/ui/entry";
import { dayWords, type TimelineSwingView } from "../view";
import { SeenCount } from "./seen-count";

interface SwingDayProps {
  day: string;
  /** Of that day, newest first. */
  swings: readonly TimelineSwingView[];
  isFirst: boolean;
}

/** The swings of one day: a strip of their clips, and what was called seen in them. */
export function SwingDay({ day, swings, isFirst }: SwingDayProps) {
  const tasks = [...new Set(swings.map(({ task }) => task.toLowerCase()))].join(", ");
  const title = `${swings.length === 1 ? "One swing" : `${swings.length} swings`}, ${tasks}`;
  return (
    <Entry side={dayWords(day)} isStrong={isFirst} label={`${dayWords(day)}: ${title}`}>
      <div className="stamp">
        <h3>{title}</h3>
      </div>
      <div className="strip loose">
        {swings.flatMap((swing, index) =>
          swing.clips.map((clip) => (
            <Link key={clip.id} href={`/swings/${swing.id}`}>
              <Cut src={clip.posterUrl} alt={`Swing ${swings.length - index}, ${clip.view} clip`} />
            </Link>
          )),
        )}
      </div>
      {calledThatDay(swings).map(({ name, ...count }) => (
        <p key={name} className="small">
          {name} <SeenCount {...count} />
        </p>
      ))}
    </Entry>
  );
}

/** What was called seen that day, most often first, of the swings that show it. */
function calledThatDay(swings: readonly TimelineSwingView[]) {
  const calls = swings.flatMap((swing) => swing.calls);
  const names = [...new Set(calls.filter(({ state }) => state === "seen").map(({ name }) => name))];
  return names
    .map((name) => {
      const states = calls.filter((call) => call.name === name).map(({ state }) => state);
      const seen = states.filter((state) => state === "seen").length;
      const notVisible = states.filter((state) => state === "not-visible").length;
      return { name, seen, notVisible, judged: states.length - notVisible };
    })
    .sort((a, b) => b.seen - a.seen || (a.name < b.name ? -1 : 1));
}
