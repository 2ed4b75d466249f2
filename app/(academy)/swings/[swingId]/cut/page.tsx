import type { Metadata } from "next";
import { notFound } from "next/navigation";
import Link from "next/link";
import { Cutter } from "@/lib/domains/clips/components/cutting/cutter";
import { getFilmToCut } from "@/lib/domains/clips/cutting/queries";
import { listLessonPlayers } from "@/lib/domains/clips/lesson/queries";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Cut swings out of a film" };

interface CutPageProps {
  params: Promise<{ swingId: string }>;
  searchParams: Promise<{ clip?: string; made?: string }>;
}

const ID = /^[0-9a-f-]{36}$/;

export default async function CutPage({ params, searchParams }: CutPageProps) {
  const [{ swingId }, { clip, made }] = await Promise.all([params, searchParams]);
  if (made) return <Made swingIds={made.split(",").filter((id) => ID.test(id))} />;
  if (!clip) notFound();
  const [film, players] = await Promise.all([getFilmToCut({ clipId: clip }), listLessonPlayers({})]);
  return (
    <Leaf>
      <Opening title="Swings in this film" sub={`${film.playerName}: each swing becomes a clip of its own.`} actions={<Link href={`/players/${film.playerId}`}>Back to {film.playerName}</Link>} />
      <Cutter key={film.clipId} film={film} players={players} />
      <p className="quiet small">
        <Link href={`/swings/${swingId}`}>The whole film</Link>
      </p>
    </Leaf>
  );
}

/** What a film became. Each swing is asked for by whoever follows its link. */
function Made({ swingIds }: { readonly swingIds: readonly string[] }) {
  return (
    <Leaf>
      <Opening title="Cut" sub={swingIds.length === 1 ? "One swing was made of the film." : `${swingIds.length} swings were made of the film.`} actions={<Link href="/cage-day">Cage day</Link>} />
      <Entry side="Swings" isHeading isStrong>
        <ul className="rows">
          {swingIds.map((id, i) => (
            <li key={id}>
              <Link href={`/swings/${id}`}>Open swing {i + 1}</Link>
              <Link href={`/swings/${id}/clips`}>Whose is it, and is it one with another?</Link>
            </li>
          ))}
        </ul>
      </Entry>
    </Leaf>
  );
}
