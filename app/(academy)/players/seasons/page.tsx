import type { Metadata } from "next";
import { SeasonsForm } from "@/lib/domains/roster/components/seasons-form";
import { listSeasons } from "@/lib/domains/roster/seasons/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Seasons" };

export default async function SeasonsPage({ searchParams }: { searchParams: Promise<{ after?: string }> }) {
  const { rows, next, today } = await listSeasons({ after: (await searchParams).after });
  return (
    <Leaf>
      <Opening
        title="Seasons"
        sub="Off-season changes things, pre-season carries them over, in season they are kept. In season no new change of the movement begins unless you agree, with a reason."
      />
      {rows.length === 0 ? <Empty title="Nobody here yet">An admin adds players. Their seasons then stand here.</Empty> : <SeasonsForm rows={rows} today={today} />}
      {next ? (
        <div className="bar-line closes">
          <ButtonLink href={`/players/seasons?${new URLSearchParams({ after: next })}`}>More players</ButtonLink>
        </div>
      ) : null}
    </Leaf>
  );
}
