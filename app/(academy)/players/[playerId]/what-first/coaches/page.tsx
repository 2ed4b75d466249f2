import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { getCoachViews } from "@/lib/domains/observations/coaches/queries";
import { CoachViews } from "@/lib/domains/observations/components/coach-views";
import { Leaf, Opening } from "@/lib/ui/leaf";

interface PageProps {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ side?: string; swing?: string }>;
}

export const metadata: Metadata = { title: "How each coach sees it" };

export default async function CoachViewsPage({ params, searchParams }: PageProps) {
  const { playerId } = await params;
  const { side, swing } = await searchParams;
  if (!swing) notFound();
  const view = await getCoachViews({ playerId, side: side === "left" ? "left" : "right", swingId: swing });
  return (
    <Leaf>
      <Opening
        title="How each coach sees it"
        sub={
          <>
            One swing of <Link href={`/players/${playerId}/what-first?side=${side === "left" ? "left" : "right"}&swing=${swing}`}>{view.playerName}</Link>. What they differ in stands first.
          </>
        }
      />
      <CoachViews view={view} />
    </Leaf>
  );
}
