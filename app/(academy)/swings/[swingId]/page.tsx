import type { Metadata } from "next";
import Link from "next/link";
import { SwingBench } from "@/lib/domains/measurement/components/swing-bench";
import { getSwingReadings } from "@/lib/domains/measurement/queries";
import { Leaf } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export const metadata: Metadata = { title: "Swing view" };

interface SwingViewPageProps {
  params: Promise<{ swingId: string }>;
  searchParams: Promise<{ clip?: string }>;
}

export default async function SwingViewPage({ params, searchParams }: SwingViewPageProps) {
  const [{ swingId }, { clip: asked }] = await Promise.all([params, searchParams]);
  const measured = await getSwingReadings({ swingId });
  const { swing } = measured;
  const own = swing.clips.find(({ clip }) => clip.id === asked) ?? swing.clips[0];
  return (
    <Leaf kind="swing">
      <div className="bar-line">
        <h1 className="as-lead">Swing view</h1>
        <span className="quiet small only-wide">
          {swing.playerName}, from the {swing.side}, {dayWords(swing.filmedOn)}
        </span>
        <span className="push" />
        {swing.clips.length > 1 ? (
          <nav className="pick" aria-label="Which clip">
            {swing.clips.map(({ clip }) => (
              <Link key={clip.id} href={`/swings/${swingId}?clip=${clip.id}`} aria-current={clip.id === own?.clip.id ? "true" : undefined}>
                {VIEW_WORDS[clip.view]}
              </Link>
            ))}
          </nav>
        ) : null}
        <Link className="btn" href={`/players/${swing.playerId}`}>
          {swing.playerName}
        </Link>
      </div>
      {!swing.isShown || !own ? (
        <Problem
          happened={`No consent to film ${swing.playerName} for lessons is in force, so the film is not shown.`}
          kept="The clip and all that was placed on it are kept."
          todo="The family or the office can give a consent."
        />
      ) : (
        <SwingBench measured={measured} clipId={own.clip.id} caption="This swing" />
      )}
    </Leaf>
  );
}

const VIEW_WORDS = { side: "Side", rear: "Behind", front: "Front" } as const;
const DAY = new Intl.DateTimeFormat("en-US", { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" });
const dayWords = (day: string) => DAY.format(new Date(`${day}T00:00:00Z`));
