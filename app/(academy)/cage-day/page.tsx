import type { Metadata } from "next";
import Link from "next/link";
import { listWaitingClips } from "@/lib/domains/clips/sent/queries";
import type { WaitingRow } from "@/lib/domains/clips/sent/view";
import { listCageDay } from "@/lib/domains/observations/queries";
import type { CageDayRow } from "@/lib/domains/observations/view";
import { listUnansweredThreads } from "@/lib/domains/messages/queries";
import { listHomework } from "@/lib/domains/plans/queries";
import { listHomeworkCounts } from "@/lib/domains/practice/queries";
import type { HomeworkCount } from "@/lib/domains/practice/view";
import { NoticeList } from "@/lib/domains/roster/components/notice-list";
import { listNotices } from "@/lib/domains/roster/queries";
import { ButtonLink } from "@/lib/ui/button";
import { CountRow } from "@/lib/ui/count-row";
import { Cue } from "@/lib/ui/cue";
import { Empty } from "@/lib/ui/empty";
import { Entry } from "@/lib/ui/entry";
import { Initials } from "@/lib/ui/initials";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { State } from "@/lib/ui/state";

export const metadata: Metadata = { title: "Cage day" };

/** As many as a coach takes in between two lessons; those put away make room for the next. */
const NOTICES_SHOWN = 6;
/** Clips and messages that wait have lists of their own. */
const ABOUT_STOPS = /^(pain|pause|incident)-/;

export default async function CageDayPage() {
  const rows = await listCageDay({});
  const playerIds = rows.map(({ playerId }) => playerId);
  const [homework, counts, clips, unanswered, notices] = await Promise.all([
    listHomework({ playerIds }), listHomeworkCounts({ playerIds }), listWaitingClips({}), listUnansweredThreads({ playerIds }), listNotices({}),
  ]);
  const paused = rows.filter((row) => row.isPaused).length;
  const stops = notices.rows.filter(({ kind, isRead }) => !isRead && ABOUT_STOPS.test(kind)).slice(0, NOTICES_SHOWN);
  return (
    <Leaf kind="day">
      <Opening
        title="Cage day"
        sub={rows.length === 0 ? undefined : `Your players, the one filmed last first. ${waitingWords(paused, clips.length, unanswered.length, stops.length)}`}
        actions={
          <>
            <ButtonLink href="/lesson">Group lesson</ButtonLink>
            <ButtonLink href="/players">All players</ButtonLink>
          </>
        }
      />
      {stops.length > 0 ? (
        <section className="opens" aria-label="Swings that were stopped or cleared">
          <NoticeList notices={stops} hrefOf={(playerId) => `/players/${playerId}`} />
        </section>
      ) : null}
      <WaitingClips rows={clips} />
      {rows.length === 0 ? (
        <Empty title="Nobody to teach yet">The head coach or an admin says whom you coach. Their rows then stand here.</Empty>
      ) : (
        <div className="colheads only-wide" aria-hidden="true">
          <span />
          <div className="lesson">
            <span />
            <span className="label">Player</span>
            <span className="label">Focus and a cue for it</span>
            <span className="label">Homework done</span>
            <span className="label">Last swing</span>
            <span className="label">Waiting</span>
            <span style={{ width: "4.3rem" }} />
          </div>
        </div>
      )}
      {rows.map((row) => (
        <PlayerEntry
          key={row.playerId}
          row={row}
          cue={homework.find(({ playerId }) => playerId === row.playerId)?.cue ?? row.foci[0]?.cue ?? null}
          count={counts.find(({ playerId }) => playerId === row.playerId)?.plans[0]}
          isUnanswered={unanswered.includes(row.playerId)}
        />
      ))}
    </Leaf>
  );
}

/** The plan's cue stands before the library's. */
function PlayerEntry({ row, cue, count, isUnanswered }: { row: CageDayRow; cue: string | null; count: HomeworkCount | undefined; isUnanswered: boolean }) {
  return (
    <Entry side={row.sides.length > 1 ? "R, L" : row.sides[0] === "left" ? "L" : "R"} label={row.name}>
      <div className="lesson">
        <Initials name={row.name} />
        <div className="who-is">
          <h2 className="name">
            <Link href={`/players/${row.playerId}`}>{row.name}</Link>
          </h2>
          <p className="note">
            {row.ageYears}, bats {row.sides.length > 1 ? "both" : row.sides[0]}
            {row.sport === "softball" ? ", softball" : ""}
          </p>
        </div>
        <p className="focus small">
          <b>{row.foci.length > 0 ? row.foci.map(({ name }) => name).join("; ") : "No focus chosen yet"}</b> {cue ? <Cue text={cue} /> : null}
        </p>
        <p className="hw small">{count ? <CountRow count={count.doneDays} total={count.plannedDays} /> : <span className="quiet">no homework yet</span>}</p>
        <p className="since small">
          <span className="hush">Last swing: </span>
          {sinceWords(row.weeksSinceSwing)}
        </p>
        <p className="waits small">
          {row.isPaused ? <State is="waiting">Swings stopped</State> : row.mayBeFilmed ? null : "Consent to film: not given"}
          {isUnanswered ? (
            <>
              {row.isPaused || !row.mayBeFilmed ? <br /> : null}
              <Link href={`/players/${row.playerId}/messages`} aria-label={`Message to answer, ${row.name}`}>
                <State is="waiting">Message to answer</State>
              </Link>
            </>
          ) : null}
        </p>
        <ButtonLink className="film" href={`/players/${row.playerId}/clips/new`} aria-label={`Film ${row.name}`}>
          Film
        </ButtonLink>
      </div>
    </Entry>
  );
}

function sinceWords(weeks: number | null): string {
  if (weeks === null) return "new";
  if (weeks === 0) return "this week";
  return weeks === 1 ? "1 week ago" : `${weeks} weeks ago`;
}

function waitingWords(paused: number, clips: number, messages: number, news: number): string {
  const said = [
    paused === 0 ? null : paused === 1 ? "The swings of one player are stopped." : `The swings of ${paused} players are stopped.`,
    clips === 0 ? null : clips === 1 ? "One clip waits for an answer." : `${clips} clips wait for an answer.`,
    messages === 0 ? null : messages === 1 ? "One family waits for a word from you." : `${messages} families wait for a word from you.`,
  ];
  return said.filter(Boolean).join(" ") || (news > 0 ? "" : "Nothing waits for you.");
}

/** What families sent and nobody answered yet, the one that waits longest first. */
function WaitingClips({ rows }: { rows: readonly WaitingRow[] }) {
  if (rows.length === 0) return null;
  return (
    <Entry side="Clips that wait" isHeading isStrong>
      <ul className="rows">
        {rows.map((row) => (
          <li key={row.id}>
            <div>
              <Link href={`/swings/${row.swingId}?clip=${row.clipId}`}>
                <b>{row.playerName}</b>
              </Link>{" "}
              <span className="note">
                {row.waited} ago{row.isLookedAt ? ", looked at" : ""}
              </span>
              {row.words ? <p>“{row.words}”</p> : null}
            </div>
            <State is="waiting">{row.isLookedAt ? "Answer" : "Look and answer"}</State>
          </li>
        ))}
      </ul>
    </Entry>
  );
}
