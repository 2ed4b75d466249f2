import Link from "next/link";
import { longDay } from "@/lib/domains/plans/view";
import { Empty } from "@/lib/ui/empty";
import type { MySwingView, SwingPair } from "../view";
import { TrendPlot } from "./trend-plot";
import { progressWords as words } from "./words";

/** Own old and new swing, and whether the one thing has changed. */
export function MySwing({ view }: { view: MySwingView }) {
  if (!view.isPermitted) {
    return (
      <Empty title={words.noConsentTitle} level="h2">
        {words.noConsent}
      </Empty>
    );
  }
  return (
    <>
      {view.sides.length > 1 ? (
        <nav className="bar-line opens" aria-label="Which side">
          <div className="pick">
            {view.sides.map((side) => (
              <Link key={side} href={`/family/${view.playerId}/swing?side=${side}`} aria-current={side === view.side ? "true" : undefined}>
                {words.sides[side]}
              </Link>
            ))}
          </div>
        </nav>
      ) : null}
      <OneThing view={view} />
      {view.pair ? (
        <ThenAndNow pair={view.pair} showsNumbers={view.showsNumbers} />
      ) : (
        <section className="opens">
          <Empty title={words.noPairTitle} level="h2">
            {words.noPair}
          </Empty>
        </section>
      )}
    </>
  );
}

function OneThing({ view: { oneThing, trend, showsNumbers } }: { view: MySwingView }) {
  if (!oneThing) return <p className="opens">{words.noThing}</p>;
  const answer = trend ? (trend.word === "changed" && trend.direction === "away" ? words.trend.changedAway : words.trend[trend.word]) : words.noTrend;
  return (
    <section className="flow opens" aria-label={words.trendTitle}>
      <p className="label">{oneThing}</p>
      <h2 className="as-lead">{answer}</h2>
      {trend?.because && showsNumbers ? <p className="quiet">{words.because(trend.because)}</p> : null}
      {trend ? <TrendPlot trend={trend} answer={answer} showsNumbers={showsNumbers} /> : null}
    </section>
  );
}

/** Below eleven the days stay away: a date is a number, too. */
function ThenAndNow({ pair, showsNumbers }: { pair: SwingPair; showsNumbers: boolean }) {
  const whenWords = (when: string, day: string) => (showsNumbers ? `${when}, ${longDay(day)}` : when);
  return (
    <section className="opens" aria-label={words.pairTitle}>
      <h2>{words.pairTitle}</h2>
      {pair.instants.map(({ event, oldUrl, newUrl }) => (
        <figure key={event} className="plate opens">
          <figcaption>
            <b>{words.events[event]}</b>
          </figcaption>
          <div className="then-now">
            {([[words.then, pair.oldDay, oldUrl], [words.now, pair.newDay, newUrl]] as const).map(([when, day, url]) => (
              <div key={when}>
                <span className="cut">
                  {/* Stills are private bytes behind a permission check; an image optimiser may not keep copies of them. */}
                  <img src={url} alt={`${whenWords(when, day)}: ${words.events[event].toLowerCase()}`} />
                </span>
                <p className="small">
                  <b>{when}</b>
                  {showsNumbers ? `, ${longDay(day)}` : ""}
                </p>
              </div>
            ))}
          </div>
        </figure>
      ))}
    </section>
  );
}
