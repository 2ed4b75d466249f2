import type { Metadata } from "next";
import Link from "next/link";
import { getPlayerOverview } from "@/lib/domains/observations/queries";
import { dayWords, type PlayerOverviewView } from "@/lib/domains/observations/view";
import { getPlayer } from "@/lib/domains/roster/queries";
import type { PlayerView } from "@/lib/domains/roster/view";
import { ButtonLink } from "@/lib/ui/button";
import { Cue } from "@/lib/ui/cue";
import { Cut } from "@/lib/ui/cut";
import { Empty } from "@/lib/ui/empty";
import { Entry } from "@/lib/ui/entry";
import { Leaf } from "@/lib/ui/leaf";

interface PageProps {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ side?: string; after?: string }>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  return { title: (await getPlayer({ playerId: (await params).playerId })).name };
}

export default async function PlayerPage({ params, searchParams }: PageProps) {
  const { playerId } = await params;
  const asked = await searchParams;
  const player = await getPlayer({ playerId });
  const side = player.sides.find((known) => known.side === asked.side)?.side ?? player.sides[0]?.side ?? "right";
  const overview = await getPlayerOverview({ playerId, side, after: asked.after });
  const here = `/players/${playerId}`;
  return (
    <Leaf>
      <div className="who-line">
        <div>
          <h1>{player.name}</h1>
          <p className="sub quiet">{aboutWords(player)}</p>
        </div>
        <div className="bar-line">
          <nav className="pick" aria-label="Which record">
            {player.sides.map((known) => (
              <Link key={known.side} href={`${here}?side=${known.side}`} aria-current={known.side === side ? "page" : undefined}>
                Bats {known.side}, {countWords(overview, known.side)}
              </Link>
            ))}
          </nav>
          <ButtonLink kind="main" href={`${here}/clips/new?side=${side}`}>
            Film
          </ButtonLink>
        </div>
      </div>
      <Band player={player} overview={overview} />
      <div className="bar-line closes">
        <ButtonLink href={`${here}/what-first?side=${side}`}>What first</ButtonLink>
        <ButtonLink href={`${here}/plan?side=${side}`}>Plan</ButtonLink>
      </div>
      <h2 className="hush">Time line</h2>
      {overview.swings.length === 0 ? (
        <Empty title="No swing from this side yet">One clip of one swing is enough to begin. Filming and sending takes about a minute.</Empty>
      ) : null}
      {overview.swings.map((swing, index) => (
        <Entry key={swing.id} side={dayWords(swing.filmedOn)} isStrong={index === 0} label={`${dayWords(swing.filmedOn)}, ${swing.words}`}>
          <h3>
            <Link href={`/swings/${swing.id}`}>{swing.words}</Link>
          </h3>
          <div className="strip short">
            {swing.clips.map((clip) => (
              <Cut key={clip.id} src={clip.posterUrl} alt={`${clip.view} clip`} />
            ))}
          </div>
          {swing.seen.length > 0 ? <p className="small">Seen: {swing.seen.join(", ")}.</p> : null}
        </Entry>
      ))}
      {overview.next ? (
        <div className="bar-line closes">
          <ButtonLink href={`${here}?${new URLSearchParams({ side, after: overview.next })}`}>Older swings</ButtonLink>
        </div>
      ) : null}
    </Leaf>
  );
}

/** What is worth knowing before the player walks in: no scrolling. */
function Band({ player, overview }: { player: PlayerView; overview: PlayerOverviewView }) {
  const { focus, askFirst } = overview;
  const [first] = focus.active;
  const [pause] = player.pauses;
  return (
    <section className="band no-figure" aria-label="At a glance">
      <div>
        <span className="label">{first ? `Focus since ${dayWords(first.since)}` : "Focus"}</span>
        <p className="head">{focus.active.length > 0 ? focus.active.map(({ name }) => name).join("; ") : "No focus chosen yet"}</p>
        {focus.parked.length > 0 ? <p className="small quiet">Parked: {focus.parked.map(({ name }) => name).join(", ")}.</p> : null}
      </div>
      {first?.cue ? (
        <div>
          <span className="label">A cue for it</span>
          <p className="head">
            <Cue text={first.cue} />
          </p>
        </div>
      ) : null}
      <div>
        <span className="label">Ask first</span>
        {pause ? (
          <p>
            Pain reported: {pause.part}, {pause.level} of 10. Swings are stopped until it is cleared.
          </p>
        ) : (
          <p>{askFirst ? (askFirst.question ?? `${askFirst.name}?`) : "Does anything hurt today?"}</p>
        )}
        {player.complaints.length > 0 ? <p className="small quiet">Spare the {player.complaints.join(", ")}.</p> : null}
      </div>
      {overview.lastSwingOn ? (
        <div>
          <span className="label">Last swing</span>
          <p>{dayWords(overview.lastSwingOn)}</p>
        </div>
      ) : null}
    </section>
  );
}

function aboutWords({ ageYears, sport, heightM, permits }: PlayerView): string {
  const mayBeFilmed = permits.some(({ use, isValid }) => use === "lesson" && isValid);
  return [ageYears, sport, heightM === null ? null : `${heightM.toFixed(2)} m`, mayBeFilmed ? null : "no consent to film"].filter(Boolean).join(", ") + ".";
}

function countWords({ swingCounts }: PlayerOverviewView, side: string): string {
  const count = swingCounts.find((one) => one.side === side)?.count ?? 0;
  return count === 1 ? "1 swing" : `${count} swings`;
}
