import type { Metadata } from "next";
import Link from "next/link";
import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { getSwingsBeside } from "@/lib/domains/measurement/queries";
import { Recorder } from "@/lib/domains/walkthroughs/components/record/recorder";
import { getTalkPoints, getWalkthrough } from "@/lib/domains/walkthroughs/queries";
import { ownClips } from "@/lib/domains/walkthroughs/view";
import { Leaf } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Talk over it" };

interface TalkPageProps {
  params: Promise<{ swingId: string }>;
  searchParams: Promise<{ clip?: string; with?: string; walkthrough?: string; chapter?: string }>;
}

/** One or more clips, and a coach who talks over them. With a walkthrough in the address it is gone on with, with a chapter that one is told anew. */
export default async function TalkPage({ params, searchParams }: TalkPageProps) {
  const [{ swingId }, { clip, with: others, walkthrough, chapter }] = await Promise.all([params, searchParams]);
  const beside = await getSwingsBeside({ swingId, clipId: clip || undefined, withIds: others ? others.split(",") : [] });
  const { clips, strangers } = ownClips(beside.clips, beside.playerId);
  const points = await getTalkPoints({ playerId: beside.playerId, swingIds: [...new Set(clips.filter((it) => it.clip.playerId === beside.playerId).map((it) => it.clip.swingId))].slice(0, 8) });
  const before = walkthrough ? await getWalkthrough({ walkthroughId: walkthrough }) : null;
  const actor = await currentActor();
  const told = before?.chapters.find(({ id }) => id === chapter) ?? null;
  return (
    <Leaf kind="swing">
      <div className="bar-line">
        <h1 className="as-lead">{told ? `Tell “${told.title}” anew` : before ? `Go on with “${before.title}”` : "Talk over it"}</h1>
        <span className="quiet small only-wide">{beside.playerName}</span>
        <span className="push" />
        <Link className="btn" href={`/swings/${swingId}/beside?${new URLSearchParams({ ...(clip ? { clip } : {}), ...(others ? { with: others } : {}) })}`}>Choose the clips</Link>
      </div>
      {strangers > 0 ? <p className="note">Another player’s film stays out of a talk that goes to this family.</p> : null}
      {clips.some(({ isModel }) => isModel) ? <p className="note">The family hears what you say of the model and sees its place empty: models are shown to coaches only.</p> : null}
      {clips.some(({ isShown }) => isShown) ? (
        <Recorder clips={clips} target={{ playerId: beside.playerId, side: clips[0]?.clip.side ?? "right", walkthroughId: before?.id ?? null, chapterId: told?.id ?? null }} points={points} userId={isPerson(actor) ? actor.userId : ""} />
      ) : (
        <p className="note">No consent to film for lessons is in force, so there is nothing to talk over.</p>
      )}
    </Leaf>
  );
}
