import type { Metadata } from "next";
import Link from "next/link";
import { AskCause } from "@/lib/domains/observations/components/ask-first";
import { CallSection } from "@/lib/domains/observations/components/call-section";
import { CandidateCard } from "@/lib/domains/observations/components/candidate";
import { FocusBox } from "@/lib/domains/observations/components/focus-box";
import { OtherFocus } from "@/lib/domains/observations/components/other-focus";
import { AnswersGiven, QuestionCard } from "@/lib/domains/observations/components/question-card";
import { SeasonBox } from "@/lib/domains/observations/components/season-box";
import { SymptomList } from "@/lib/domains/observations/components/symptom-list";
import { words } from "@/lib/domains/observations/components/words";
import { WorkDue } from "@/lib/domains/observations/components/work-due";
import { OverruledList } from "@/lib/domains/observations/components/overruled-list";
import { getWhatFirst } from "@/lib/domains/observations/queries";
import { dayWords, type WhatFirstView } from "@/lib/domains/observations/view";
import { getPlayer } from "@/lib/domains/roster/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

interface PageProps {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ side?: string; swing?: string; kind?: string; all?: string }>;
}

export const metadata: Metadata = { title: "What first" };

export default async function WhatFirstPage({ params, searchParams }: PageProps) {
  const { playerId } = await params;
  const asked = await searchParams;
  const side = asked.side === "right" || asked.side === "left" ? asked.side : ((await getPlayer({ playerId })).sides[0]?.side ?? "right");
  const view = await getWhatFirst({ playerId, side, swingId: asked.swing, kind: asked.kind, all: asked.all });
  const here = `/players/${playerId}`;
  const address = (more: Record<string, string | undefined>) =>
    `${here}/what-first?${new URLSearchParams(Object.entries({ side, swing: asked.swing, kind: asked.kind, all: asked.all, ...more }).flatMap(([key, value]) => (value ? [[key, value]] : [])))}`;
  const who = { playerId, side };
  const { swingInHandId, askFirst, answered, answers, focus, question } = view;
  return (
    <Leaf>
      <Opening
        title="What first"
        sub={
          <>
            <Link href={`${here}?side=${side}`}>{view.name}</Link>, bats {side}. {view.swingWords ? `${view.swingWords}. ` : null}Readings propose, you decide.
          </>
        }
        actions={<Ways view={view} address={address} />}
      />
      {askFirst.map((cause) => (
        <AskCause key={cause.nodeId} cause={cause} {...who} />
      ))}
      {view.workDue ? <WorkDue key={view.workDue} given={{ ...who, kind: asked.kind }} isOrderDue={view.standing === "too-wide"} /> : null}
      <div className="reason" style={{ marginTop: "1.5rem" }}>
        <section aria-labelledby="seen">
          <h2 id="seen">What is seen</h2>
          <p className="only-phone small">
            <a className="btn plain" href="#first">
              Go to what to work on first
            </a>
          </p>
          {swingInHandId === null ? (
            <Empty title="No swing from this side yet" action={<ButtonLink kind="main" href={`${here}/clips/new`}>Film</ButtonLink>}>
              Add one clip of a swing. What is seen in it is called here; that takes about two minutes.
            </Empty>
          ) : (
            <>
              {view.coachCount > 1 ? (
                <p>
                  <Link className="btn plain" href={`${here}/what-first/coaches?side=${side}&swing=${swingInHandId}`}>
                    {words.coaches.link(view.coachCount)}
                  </Link>
                </p>
              ) : null}
              {view.retired.length > 0 ? <p className="note">{words.order.retired(view.retired.join(", "))}</p> : null}
              {view.sections.map((section) => (
                <CallSection key={section.id} section={section} swing={{ ...who, swingId: swingInHandId }} allHref={address({ all: section.id })} />
              ))}
            </>
          )}
          <SymptomList symptoms={view.symptoms} href={`${here}/tally?side=${side}`} />
        </section>
        <section aria-labelledby="first">
          <h2 id="first">What to work on first</h2>
          <SeasonBox season={view.season} faults={view.faults} {...who} />
          <Standing view={view} />
          {view.candidates.map((candidate, index) => (
            <CandidateCard key={candidate.faultId} candidate={candidate} place={index + 1} active={focus.active} isWaiting={view.season.waiting.includes(candidate.faultId)} {...who} />
          ))}
          {question ? <QuestionCard question={question} who={who} /> : null}
          <OtherFocus faults={view.faults.filter(({ faultId }) => !view.season.waiting.includes(faultId))} active={focus.active} {...who} />
          {view.overruled.length > 0 ? <OverruledList overruled={view.overruled} {...who} /> : null}
          {answered.length + answers.length > 0 ? (
            <section className="q" aria-label="Asked and answered">
              <h3>Asked and answered</h3>
              {answered.map((cause) => (
                <AskCause key={cause.nodeId} cause={cause} {...who} />
              ))}
              <AnswersGiven answers={answers} who={who} />
            </section>
          ) : null}
        </section>
      </div>
      <FocusBox foci={focus} {...who} planHref={`${here}/plan?side=${side}`} />
    </Leaf>
  );
}

/** To the swings that are looked at together, and to the other side. */
function Ways({ view, address }: { view: WhatFirstView; address: (more: Record<string, string | undefined>) => string }) {
  return (
    <>
      {view.sides.length > 1 ? (
        <nav className="pick" aria-label="Which record">
          {view.sides.map((side) => (
            <Link key={side} href={address({ side, swing: undefined })} aria-current={side === view.side ? "page" : undefined}>
              Bats {side}
            </Link>
          ))}
        </nav>
      ) : null}
      {view.kinds.length > 1 ? (
        <nav className="pick" aria-label="Which kind of swing">
          {view.kinds.map((kind) => (
            <Link key={kind.id} href={address({ kind: kind.id, swing: undefined })} aria-current={kind.isInHand ? "page" : undefined}>
              {kind.words}
            </Link>
          ))}
        </nav>
      ) : null}
      {view.swings.length > 1 ? (
        <nav className="pick" aria-label="Which swing is called">
          {view.swings.map((swing, index) => (
            <Link key={swing.id} href={address({ swing: swing.id })} aria-current={swing.isInHand ? "page" : undefined}>
              {index === 0 ? "Newest" : `${index + 1}`}
              <span className="hush">
                {" "}
                swing, {dayWords(swing.filmedOn)}, {swing.views.join(" and ")}
              </span>
            </Link>
          ))}
        </nav>
      ) : null}
      {view.swingInHandId ? <ButtonLink href={`/swings/${view.swingInHandId}`}>Look at the swing</ButtonLink> : null}
    </>
  );
}

/** What the order on the right is worth. */
function Standing({ view }: { view: WhatFirstView }) {
  if (!view.isAnythingKnown) {
    return (
      <Empty title="Nothing is called yet">
        Go through the three questions on this page and say for each thing: seen, not seen or not visible. After three or four calls the
        order stands here, with its reasons.
      </Empty>
    );
  }
  if (view.standing === "too-wide") return null;
  if (view.standing === "impossible") return <p className="why">{words.order.impossible(view.impossible.join(", "))}</p>;
  if (view.candidates.length === 0) return <p className="why">Nothing stands out: everything that would was overruled, or nothing was seen.</p>;
  return (
    <>
      {view.standing === "not-enough" ? (
        <p className="why">
          <b>Not enough seen yet.</b> These come nearest; none of them is a recommendation.
        </p>
      ) : null}
      {view.candidates.every(({ reasons }) => reasons === null) ? <p className="note">{view.workDue ? words.order.reasonsDue : words.order.moreCalls}</p> : null}
      {view.sampledError !== null ? <p className="why">{words.order.sampled(view.sampledError)}</p> : null}
      {view.steadiness ? (
        <p className="note">
          {view.steadiness.isSteady ? words.order.steady : words.order.depends}
          {!view.steadiness.isSteady && view.steadiness.instead ? ` ${words.order.instead(view.steadiness.instead)}` : null}
        </p>
      ) : null}
    </>
  );
}
