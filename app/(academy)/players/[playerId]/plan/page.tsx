import type { Metadata } from "next";
import Link from "next/link";
import { ActButton } from "@/lib/domains/identity/components/act-button";
import { startPlan } from "@/lib/domains/plans/actions";
import { DraftParts, DraftPreview } from "@/lib/domains/plans/components/draft-parts";
import { FamilyNoteLetter } from "@/lib/domains/plans/components/family-note";
import { PlanFacts } from "@/lib/domains/plans/components/plan-facts";
import { getNoteForCoach, getPlanDraft } from "@/lib/domains/plans/queries";
import type { PlanPage } from "@/lib/domains/plans/draft/view";
import { longDay, type WholeNote } from "@/lib/domains/plans/view";
import { ElsewhereForm } from "@/lib/domains/roster/components/elsewhere-form";
import { HomeForm } from "@/lib/domains/roster/components/home-form";
import { getPlayer } from "@/lib/domains/roster/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

interface PageProps {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ side?: string; focus?: string }>;
}

export const metadata: Metadata = { title: "Plan and note" };

export default async function PlanAndNotePage({ params, searchParams }: PageProps) {
  const { playerId } = await params;
  const asked = await searchParams;
  const side = asked.side === "right" || asked.side === "left" ? asked.side : ((await getPlayer({ playerId })).sides[0]?.side ?? "right");
  const page = await getPlanDraft({ playerId, side, focusId: asked.focus });
  const { draft, lastSent } = page;
  const sent = !draft && lastSent ? await getNoteForCoach({ noteId: lastSent.noteId }) : null;
  const focus = page.foci.find(({ isChosen }) => isChosen);
  return (
    <Leaf>
      <Opening
        title="Plan and note"
        sub={
          <>
            <Link href={`/players/${playerId}?side=${side}`}>{page.name}</Link>, bats {side}. {focus ? <>Focus: <b>{focus.name}</b>.</> : null}
          </>
        }
        actions={<Ways page={page} />}
      />
      {page.isPaused ? <Problem happened="Swings are paused after a report of pain or an incident." kept="The plan is kept." todo="Only strength and mobility can be given until coach and family have both cleared it." /> : null}
      {page.season.refusal ? <SeasonWaits page={page} /> : null}
      {focus ? (
        <>
          <PlanFacts page={page} draft={draft} />
          <Home page={page} />
          {page.home ? <Elsewhere page={page} /> : null}
          {draft ? (
            <div className="plan opens">
              <DraftParts page={page} draft={draft} />
              <DraftPreview page={page} draft={draft} />
            </div>
          ) : (
            <Begin page={page} focusId={focus.id} sent={sent} />
          )}
        </>
      ) : (
        <Empty title="A note needs a focus" level="h2" action={<ButtonLink kind="main" href={`/players/${playerId}/what-first?side=${side}`}>What first</ButtonLink>}>
          Choose what to work on. Then drills for it stand here, and the note is written in about three minutes.
        </Empty>
      )}
    </Leaf>
  );
}

/** The season lets this focus wait: why, and who can agree. */
function SeasonWaits({ page }: { page: PlanPage }) {
  return (
    <Problem
      happened={page.season.refusal ?? ""}
      kept={page.draft ? "The draft is kept and cannot be sent." : "No plan is begun for it."}
      todo="Timing, rhythm and eyes may be a focus now, and what was one before the season."
      action={<ButtonLink href={`/players/${page.playerId}/what-first?side=${page.side}#season`}>Who can agree</ButtonLink>}
    />
  );
}

/** The other side and the other focus have plans of their own. */
function Ways({ page }: { page: PlanPage }) {
  const here = `/players/${page.playerId}/plan`;
  return (
    <>
      {page.sides.length > 1 ? (
        <nav className="pick" aria-label="Which side">
          {page.sides.map((side) => (
            <Link key={side} href={`${here}?side=${side}`} aria-current={side === page.side ? "page" : undefined}>
              Bats {side}
            </Link>
          ))}
        </nav>
      ) : null}
      {page.foci.length > 1 ? (
        <nav className="pick" aria-label="Which focus">
          {page.foci.map(({ id, name, isChosen }) => (
            <Link key={id} href={`${here}?side=${page.side}&focus=${id}`} aria-current={isChosen ? "page" : undefined}>
              {name}
            </Link>
          ))}
        </nav>
      ) : null}
    </>
  );
}

/** What is at home: asked before the first plan, to be changed at any time. */
function Home({ page }: { page: PlanPage }) {
  const form = <HomeForm playerId={page.playerId} home={page.home} gear={page.gearItems} />;
  if (page.home) {
    return (
      <details>
        <summary className="btn plain">Change what is at home</summary>
        {form}
      </details>
    );
  }
  return (
    <section className="opens" aria-labelledby="home">
      <h2 id="home">First: what is there at home?</h2>
      <p>Only drills that fit are proposed. It is asked once and can be changed here.</p>
      {form}
    </section>
  );
}

/** Swings of team, lessons and games: asked before the first plan is sent, since caps count them all. */
function Elsewhere({ page }: { page: PlanPage }) {
  const form = <ElsewhereForm playerId={page.playerId} sources={page.elsewhere.sources} />;
  if (page.elsewhere.isKnown) {
    return (
      <details>
        <summary className="btn plain">Change the swings elsewhere</summary>
        {form}
      </details>
    );
  }
  return (
    <section className="opens" aria-labelledby="elsewhere">
      <h2 id="elsewhere">What swings are there elsewhere?</h2>
      <p>Team, lessons and games of a usual week. Caps count all of them, so homework leaves room.</p>
      {form}
    </section>
  );
}

function Begin({ page, focusId, sent }: { page: PlanPage; focusId: string; sent: WholeNote | null }) {
  const begin = page.home ? (
    <ActButton action={startPlan} fields={{ playerId: page.playerId, side: page.side, focusId }} kind="main">
      {sent ? "Begin the next plan" : "Begin the plan"}
    </ActButton>
  ) : null;
  if (!sent) return begin && <Empty title="No plan for this focus yet" level="h2" action={begin}>Two drills, a cue and a note: about three minutes.</Empty>;
  return (
    <section className="opens flow" aria-labelledby="sent">
      <h2 id="sent">Sent on {longDay(sent.note.day)}</h2>
      <div className="plan">
        <FamilyNoteLetter note={sent.note} />
        <aside className="flow" aria-label="For staff">
          {sent.privateWords ? (
            <p className="pencilled">
              <b>For staff only.</b> {sent.privateWords}
            </p>
          ) : null}
          {begin}
        </aside>
      </div>
    </section>
  );
}
