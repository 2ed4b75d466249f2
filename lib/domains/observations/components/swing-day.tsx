import Link from "next/link";
import { CountRow } from "@/lib/ui/count-row";
import { Cut } from "@/lib/ui/cut";
import { Entry } from "@/lib/ui/entry";
import { dayWords, type TimelineSwingView } from "../view";

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
      {seenOften(swings).map(({ name, count }) => (
        <p key={name} className="small">
          {name} <CountRow count={count} total={swings.length} />
        </p>
      ))}
    </Entry>
  );
}

/** What was seen that day, most often first. */
function seenOften(swings: readonly TimelineSwingView[]): { name: string; count: number }[] {
  const counts = new Map<string, number>();
  for (const name of swings.flatMap(({ seen }) => seen)) counts.set(name, (counts.get(name) ?? 0) + 1);
  return [...counts].map(([name, count]) => ({ name, count })).sort((a, b) => b.count - a.count || (a.name < b.name ? -1 : 1));
}
