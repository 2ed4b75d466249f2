import Link from "next/link";
import type { Say } from "@/lib/core/words/say";
import { Told } from "@/lib/ui/words/told";
import { Empty } from "@/lib/ui/empty";
import type { MySwingView, SwingPair } from "../view";
import { TrendPlot } from "./trend-plot";
import { progressWords as words } from "./words";

/** Own old and new swing, and whether the one thing has changed. */
export function MySwing({ view, say }: { view: MySwingView; say: Say }) {
  if (!view.isPermitted) {
    return (
      <Empty title={say("Nothing is shown now")} level="h2">
        {say("The yes to filming has ended or was taken back. A parent can give one again.")}
      </Empty>
    );
  }
  return (
    <>
      {view.sides.length > 1 ? (
        <nav className="bar-line opens" aria-label={say("Which side")}>
          <div className="pick">
            {view.sides.map((side) => (
              <Link key={side} href={`/family/${view.playerId}/swing?side=${side}`} aria-current={side === view.side ? "true" : undefined}>
                {say(words.sides[side])}
              </Link>
            ))}
          </div>
        </nav>
      ) : null}
      <OneThing view={view} say={say} />
      {view.pair ? (
        <ThenAndNow pair={view.pair} showsNumbers={view.showsNumbers} say={say} />
      ) : (
        <section className="opens">
          <Empty title={say("There are not two swings to look at yet")} level="h2">
            {say("Two swings of different days stand here once your coach has put one into a note, or you have sent one. Send a clip, and it can be one of them.")}
          </Empty>
        </section>
      )}
    </>
  );
}

function OneThing({ view: { oneThing, trend, showsNumbers }, say }: { view: MySwingView; say: Say }) {
  if (!oneThing) return <p className="opens">{say("Your coach writes one thing to work on after a lesson. Then it stands here.")}</p>;
  const answer = say(trend ? (trend.word === "changed" && trend.direction === "away" ? words.trend.changedAway : words.trend[trend.word]) : words.noTrend);
  return (
    <section className="flow opens" aria-label={say("The one thing")}>
      <p className="label">
        <Told say={say} text={oneThing} />
      </p>
      <h2 className="as-lead">{answer}</h2>
      {trend?.because && showsNumbers ? <p className="quiet" lang={say.langOf(trend.because)}>{say.around(trend.because)("Cannot tell: {why}.", { why: say.told(trend.because) })}</p> : null}
      {trend ? <TrendPlot trend={trend} answer={answer} showsNumbers={showsNumbers} say={say} /> : null}
    </section>
  );
}

/** Below eleven the days stay away: a date is a number, too. */
function ThenAndNow({ pair, showsNumbers, say }: { pair: SwingPair; showsNumbers: boolean; say: Say }) {
  const whenWords = (when: string, day: string) => (showsNumbers ? `${when}, ${say.day(day)}` : when);
  return (
    <section className="opens" aria-label={say("Then and now")}>
      <h2>{say("Then and now")}</h2>
      {pair.instants.map(({ event, oldUrl, newUrl }) => (
        <figure key={event} className="plate opens">
          <figcaption>
            <b>{say(words.events[event])}</b>
          </figcaption>
          <div className="then-now">
            {([[say("Then"), pair.oldDay, oldUrl], [say("Now"), pair.newDay, newUrl]] as const).map(([when, day, url]) => (
              <div key={when}>
                <span className="cut">
                  {/* Stills are private bytes behind a permission check; an image optimiser may not keep copies of them. */}
                  <img src={url} alt={`${whenWords(when, day)}: ${say(words.events[event]).toLowerCase()}`} />
                </span>
                <p className="small">
                  <b>{when}</b>
                  {showsNumbers ? `, ${say.day(day)}` : ""}
                </p>
              </div>
            ))}
          </div>
        </figure>
      ))}
    </section>
  );
}
