import type { Metadata } from "next";
import Link from "next/link";
import { BallForm } from "@/lib/domains/observations/components/ball-form";
import { LastBalls, TallySays } from "@/lib/domains/observations/components/tally-says";
import { getTally } from "@/lib/domains/observations/tally/queries";
import { getPlayer } from "@/lib/domains/roster/queries";
import { Leaf, Opening } from "@/lib/ui/leaf";

interface PageProps {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ side?: string }>;
}

export const metadata: Metadata = { title: "Balls counted" };

export default async function TallyPage({ params, searchParams }: PageProps) {
  const { playerId } = await params;
  const asked = (await searchParams).side;
  const side = asked === "right" || asked === "left" ? asked : ((await getPlayer({ playerId })).sides[0]?.side ?? "right");
  const view = await getTally({ playerId, side });
  const who = { playerId, side };
  return (
    <Leaf>
      <Opening
        title="Balls counted"
        sub={
          <>
            <Link href={`/players/${playerId}?side=${side}`}>{view.name}</Link>, bats {side}. What you do not know stays unknown; only how it was met is needed.
          </>
        }
        actions={
          <Link className="btn" href={`/players/${playerId}/what-first?side=${side}`}>
            What first
          </Link>
        }
      />
      <div className="reason">
        <BallForm lists={view.lists} last={view.last} given={who} />
        <div>
          <TallySays symptoms={view.symptoms} who={who} />
          <LastBalls balls={view.balls} count={view.ballCount} who={who} />
        </div>
      </div>
    </Leaf>
  );
}
