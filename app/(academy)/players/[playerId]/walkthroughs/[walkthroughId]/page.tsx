import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { Replay } from "@/lib/domains/walkthroughs/components/replay/replay";
import { WalkthroughDesk } from "@/lib/domains/walkthroughs/components/desk/walkthrough-desk";
import { longDay } from "@/lib/domains/plans/view";
import { getWalkthrough } from "@/lib/domains/walkthroughs/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Walkthrough" };

interface PageProps {
  params: Promise<{ playerId: string; walkthroughId: string }>;
  searchParams: Promise<{ at?: string | string[] }>;
}

export default async function WalkthroughPage({ params, searchParams }: PageProps) {
  const [{ playerId, walkthroughId }, { at }] = await Promise.all([params, searchParams]);
  const view = await getWalkthrough({ walkthroughId });
  if (view.playerId !== playerId) notFound();
  return (
    <Leaf kind="swing">
      <div className="bar-line">
        <h1 className="as-lead">{view.title}</h1>
        <span className="quiet small only-wide">{view.givenName}, {view.sentOn ? `sent on ${longDay(view.sentOn)}` : "not sent yet"}</span>
        <span className="push" />
        <ButtonLink href={`/players/${playerId}/walkthroughs`}>All walkthroughs</ButtonLink>
      </div>
      <Replay view={view} startMs={Number(at) || 0} />
      <WalkthroughDesk view={view} />
    </Leaf>
  );
}
