import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { AnswerForm } from "@/lib/domains/clips/components/sent/answer-form";
import { sentWords as words } from "@/lib/domains/clips/components/sent/sent-words";
import { getSwing } from "@/lib/domains/clips/queries";
import { findSentOf } from "@/lib/domains/clips/sent/queries";
import { english } from "@/lib/core/words/say";
import { NoteStill } from "@/lib/domains/plans/components/note-still";
import { listSentPlans } from "@/lib/domains/plans/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Answer" };

interface AnswerPageProps {
  params: Promise<{ swingId: string }>;
  searchParams: Promise<{ clip?: string; frame?: string }>;
}

/** The frame that a coach chose in the swing view, and the words that go with it. */
export default async function AnswerPage({ params, searchParams }: AnswerPageProps) {
  const [{ swingId }, { clip: clipId, frame }] = await Promise.all([params, searchParams]);
  const [sent, swing] = await Promise.all([findSentOf({ swingId }), getSwing({ swingId })]);
  const clip = swing.clips.find((it) => it.clip.id === clipId)?.clip;
  const frameIndex = Number(frame ?? NaN);
  if (!sent || !clip || !Number.isInteger(frameIndex) || frameIndex < 0 || frameIndex >= clip.frameTimes.ticks.length) notFound();
  const plans = await listSentPlans({ playerId: sent.playerId });
  const { widthPx, heightPx } = clip;
  const marks = clip.marks.filter((it) => it.frameIndex === frameIndex).map(({ shape }) => shape);
  const url = swing.isShown ? `/api/media/clips/${clip.id}/stills/${frameIndex}` : null;
  return (
    <Leaf>
      <Opening
        title={`Answer ${sent.givenName}`}
        sub={sent.words ? `“${sent.words}”` : undefined}
        actions={<ButtonLink href={`/swings/${swingId}?clip=${clip.id}&frame=${frameIndex}`}>Another frame</ButtonLink>}
      />
      <div className="answering">
        <NoteStill say={english} still={{ clipId: clip.id, frameIndex, widthPx, heightPx, marks, url }} alt={`The frame on which the answer opens for ${sent.givenName}`} />
        {url ? (
          <AnswerForm sentId={sent.id} clipId={clip.id} frameIndex={frameIndex} answer={sent.answer} drills={plans.flatMap(({ plan }) => plan.drills.map(({ id, name }) => ({ id, name })))} />
        ) : (
          <p className="trouble">No consent to film {sent.givenName} for lessons is in force, so nothing can be answered.</p>
        )}
      </div>
      <p className="opens">
        <ButtonLink href={`/swings/${swingId}/talk?clip=${clip.id}`} kind="plain">
          {words.coach.talk}
        </ButtonLink>
      </p>
    </Leaf>
  );
}
