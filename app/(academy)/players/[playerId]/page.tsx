import type { Metadata } from "next";
import Link from "next/link";
import { SwingDay } from "@/lib/domains/observations/components/swing-day";
import { getPlayerOverview } from "@/lib/domains/observations/queries";
import { dayWords, type PlayerOverviewView } from "@/lib/domains/observations/view";
import { listUnansweredThreads } from "@/lib/domains/messages/queries";
import { getHomeworkSummary, listSentNotes } from "@/lib/domains/plans/queries";
import type { SentNoteRow } from "@/lib/domains/plans/view";
import { getHomeworkCounts } from "@/lib/domains/practice/queries";
import type { HomeworkCount } from "@/lib/domains/practice/view";
import { listWalkthroughs } from "@/lib/domains/walkthroughs/queries";
import { sayMinutes, type WalkthroughRow } from "@/lib/domains/walkthroughs/view";
import { IncidentForm } from "@/lib/domains/roster/components/incident-form";
import { causeWords, PauseNotice } from "@/lib/domains/roster/components/pause-notice";
import { SeasonForm } from "@/lib/domains/roster/components/season-form";
import { seasonWords } from "@/lib/domains/roster/components/words";
import { getPlayer, getPlayerFacts } from "@/lib/domains/roster/queries";
import type { PlayerView } from "@/lib/domains/roster/view";
import { ButtonLink } from "@/lib/ui/button";
import { CountRow } from "@/lib/ui/count-row";
import { Cue } from "@/lib/ui/cue";
import { Empty } from "@/lib/ui/empty";
import { Entry } from "@/lib/ui/entry";
import { Leaf } from "@/lib/ui/leaf";
import { State } from "@/lib/ui/state";

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
  const { today } = await getPlayerFacts({ playerId });
  const side = player.sides.find((known) => known.side === asked.side)?.side ?? player.sides[0]?.side ?? "right";
  const [overview, notes, [homework], counts, walkthroughs, unanswered] = await Promise.all([
    getPlayerOverview({ playerId, side, after: asked.after }),
    listSentNotes({ playerId }),
    getHomeworkSummary({ playerId, side }),
    getHomeworkCounts({ playerId, side }),
    listWalkthroughs({ playerId }),
    listUnansweredThreads({ playerIds: [playerId] }),
  ]);
  const sideNotes = notes.rows.filter((note) => note.side === side);
  const here = `/players/${playerId}`;
  const entries = timeLine(overview, asked.after ? [] : sideNotes, asked.after ? [] : walkthroughs.filter((it) => it.side === side));
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
      <Band player={player} overview={overview} note={sideNotes[0]} cue={homework?.cue} count={counts.plans[0]} />
      <div className="bar-line opens closes">
        <ButtonLink href={`${here}/what-first?side=${side}`}>What first</ButtonLink>
        {overview.swings[0] ? <ButtonLink href={`/swings/${overview.swings[0].id}/sheet`}>Checkpoint sheet</ButtonLink> : null}
        <ButtonLink href={`${here}/plan?side=${side}`}>Plan</ButtonLink>
        <ButtonLink href={`${here}/walkthroughs`}>Walkthroughs</ButtonLink>
        <ButtonLink href={`${here}/messages`}>{unanswered.length > 0 ? "Messages: one to answer" : "Messages"}</ButtonLink>
      </div>
      <PauseNotice player={player} />
      <section className="flow closes" id="season" aria-label="Season and incidents">
        <p className="small">{player.season ? seasonWords(player.season) : "Season: not said yet. While nobody says it, no rule of the season holds."}</p>
        {player.can.setSeason ? (
          <details>
            <summary className="btn plain">{player.season ? "Change the season" : "Say the season"}</summary>
            <SeasonForm playerId={playerId} season={player.season} today={today} />
          </details>
        ) : null}
        {player.can.noteIncident ? (
          <details>
            <summary className="btn plain">Note an incident</summary>
            <IncidentForm playerId={playerId} today={today} />
          </details>
        ) : null}
      </section>
      <h2 className="hush">Time line</h2>
      {entries.length === 0 ? (
        <Empty title="No swing from this side yet">One clip of one swing is enough to begin. Filming and sending takes about a minute.</Empty>
      ) : null}
      {entries.map((entry, index) =>
        "swings" in entry ? (
          <SwingDay key={entry.day} day={entry.day} swings={entry.swings} isFirst={index === 0} />
        ) : "note" in entry ? (
          <NoteEntry key={entry.note.id} note={entry.note} />
        ) : (
          <WalkthroughEntry key={entry.walkthrough.id} href={`${here}/walkthroughs/${entry.walkthrough.id}`} walkthrough={entry.walkthrough} />
        ),
      )}
      {overview.next ? (
        <div className="bar-line closes">
          <ButtonLink href={`${here}?${new URLSearchParams({ side, after: overview.next })}`}>Older swings</ButtonLink>
        </div>
      ) : null}
    </Leaf>
  );
}

interface BandProps {
  player: PlayerView;
  overview: PlayerOverviewView;
  note: SentNoteRow | undefined;
  cue: string | undefined;
  count: HomeworkCount | undefined;
}

const CELLS_IN_ROW = 3;

/** What is worth knowing before the player walks in: no scrolling. */
function Band({ player, overview, note, cue, count }: BandProps) {
  const { focus, askFirst } = overview;
  const [first] = focus.active;
  const said = cue ?? note?.cue ?? first?.cue;
  const cells = [
    note && { label: <State is="kept" />, content: <p className="head">{note.keptWell}</p> },
    {
      label: first ? `Focus since ${dayWords(first.since)}` : "Focus",
      content: (
        <>
          <p className="head">{focus.active.length > 0 ? focus.active.map(({ name }) => name).join("; ") : "No focus chosen yet"}</p>
          {focus.parked.length > 0 ? <p className="small quiet">Parked: {focus.parked.map(({ name }) => name).join(", ")}.</p> : null}
        </>
      ),
    },
    said && {
      label: cue ? "Cue of the plan" : "A cue for it",
      content: (
        <p className="head">
          <Cue text={said} />
        </p>
      ),
    },
    { label: "Ask first", content: <AskFirstWords player={player} askFirst={askFirst} /> },
    count && {
      label: "Homework, last plan",
      content: (
        <>
          <CountRow count={count.doneDays} total={count.plannedDays} unit="days" />
          <p className="small quiet">Until {dayWords(count.endsOn)}.</p>
        </>
      ),
    },
    overview.lastSwingOn && { label: "Last swing", content: <p>{dayWords(overview.lastSwingOn)}</p> },
  ].filter((cell) => typeof cell === "object" && cell !== null);
  return (
    <section className="band no-figure" aria-label="At a glance">
      {cells.map(({ label, content }, index) => (
        <div key={index} className={index < CELLS_IN_ROW ? undefined : "row2"}>
          <span className="label">{label}</span>
          {content}
        </div>
      ))}
    </section>
  );
}

/** Pain stands before everything else that could be asked. */
function AskFirstWords({ player, askFirst }: { player: PlayerView; askFirst: PlayerOverviewView["askFirst"] }) {
  const [pause] = player.pauses;
  return (
    <>
      <p>
        {pause
          ? `${causeWords(pause)}. Swings are stopped until it is cleared.`
          : askFirst
            ? (askFirst.question ?? `${askFirst.name}?`)
            : "Does anything hurt today?"}
      </p>
      {player.complaints.length > 0 ? <p className="small quiet">Spare the {player.complaints.join(", ")}.</p> : null}
    </>
  );
}

function NoteEntry({ note }: { note: SentNoteRow }) {
  return (
    <Entry side={dayWords(note.sentOn)} label={`Note of ${dayWords(note.sentOn)}`}>
      <div className="stamp">
        <h3>
          <Link href={`/notes/${note.id}`}>Note: {note.oneThing}</Link>
        </h3>
        <p className="note">from {note.from}</p>
      </div>
      <Cue text={note.cue} />
    </Entry>
  );
}

function WalkthroughEntry({ walkthrough, href }: { walkthrough: WalkthroughRow; href: string }) {
  const { madeOn, title, lengthMs, from, sentOn } = walkthrough;
  return (
    <Entry side={dayWords(madeOn)} label={`Walkthrough of ${dayWords(madeOn)}`}>
      <div className="stamp">
        <h3>
          <Link href={href}>Walkthrough: {title}</Link>
        </h3>
        <p className="note">
          {sayMinutes(lengthMs)} minutes from {from}, {sentOn ? "sent" : "not sent yet"}
        </p>
      </div>
    </Entry>
  );
}

type TimelineEntry = { day: string; swings: PlayerOverviewView["swings"] } | { day: string; note: SentNoteRow } | { day: string; walkthrough: WalkthroughRow };

/** Swings by day, notes and walkthroughs in one line, newest first; what is older than the swings shown waits for the next page. */
function timeLine({ swings, next }: PlayerOverviewView, notes: readonly SentNoteRow[], walkthroughs: readonly WalkthroughRow[]): TimelineEntry[] {
  const days = [...new Set(swings.map(({ filmedOn }) => filmedOn))].map((day) => ({ day, swings: swings.filter(({ filmedOn }) => filmedOn === day) }));
  const oldest = next ? (swings.at(-1)?.filmedOn ?? "") : "";
  const told = notes.filter(({ sentOn }) => sentOn >= oldest).map((note) => ({ day: note.sentOn, note }));
  const talks = walkthroughs.filter(({ madeOn }) => madeOn >= oldest).map((walkthrough) => ({ day: walkthrough.madeOn, walkthrough }));
  return [...told, ...talks, ...days].sort((a, b) => (a.day < b.day ? 1 : a.day > b.day ? -1 : 0));
}

function aboutWords({ ageYears, sport, heightM, permits }: PlayerView): string {
  const mayBeFilmed = permits.some(({ use, isValid }) => use === "lesson" && isValid);
  return `${[ageYears, sport, heightM === null ? null : `${heightM.toFixed(2)} m`, mayBeFilmed ? null : "no consent to film"].filter(Boolean).join(", ")}.`;
}

function countWords({ swingCounts }: PlayerOverviewView, side: string): string {
  const count = swingCounts.find((one) => one.side === side)?.count ?? 0;
  return count === 1 ? "1 swing" : `${count} swings`;
}
