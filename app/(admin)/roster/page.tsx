import { RosterTable } from "@/lib/domains/roster/components/roster-table";
import { listPlayers } from "@/lib/domains/roster/queries";
import { ButtonLink, Button } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { TextInput } from "@/lib/ui/text-input";

export const metadata = { title: "Roster" };

type Search = Promise<{ q?: string; after?: string; left?: string }>;

export default async function RosterPage({ searchParams }: { searchParams: Search }) {
  const { q = "", after, left } = await searchParams;
  const hasLeft = left === "1";
  const page = await listPlayers({ search: q.slice(0, 80), after, hasLeft });
  const hrefWith = (more: Record<string, string>) => `/roster?${new URLSearchParams({ ...(q ? { q } : {}), ...(hasLeft ? { left: "1" } : {}), ...more })}`;
  return (
    <Leaf>
      <Opening
        title={hasLeft ? "Players who have left" : "Roster"}
        sub={hasLeft ? "Their records are kept; coaches no longer see them." : "Everybody who trains here, by family name."}
        actions={
          <>
            <ButtonLink href="/hours">Hours for messages</ButtonLink>
            <ButtonLink href="/roster/new" kind="main">Add a player</ButtonLink>
          </>
        }
      />
      <form className="form" action="/roster" method="get" role="search">
        {hasLeft ? <input type="hidden" name="left" value="1" /> : null}
        <TextInput name="q" label="Find by name" type="search" defaultValue={q} autoComplete="off" />
        <div className="bar-line">
          <Button type="submit">Find</Button>
          {q ? <ButtonLink href={hasLeft ? "/roster?left=1" : "/roster"}>Show all</ButtonLink> : null}
          {hasLeft ? <ButtonLink href="/roster">Who is here</ButtonLink> : <ButtonLink href="/roster?left=1">Who has left</ButtonLink>}
        </div>
      </form>
      {page.rows.length > 0 ? <RosterTable rows={page.rows} /> : null}
      {page.rows.length === 0 && q ? <Empty title={`Nobody is called “${q}”.`}>Try a part of the given or the family name.</Empty> : null}
      {page.rows.length === 0 && !q && !hasLeft ? <Empty title="No players yet.">Add the first one: a name, a birth date, how they bat. It takes a minute.</Empty> : null}
      {page.rows.length === 0 && !q && hasLeft ? <Empty title="Nobody has left." /> : null}
      {page.next ? <ButtonLink href={hrefWith({ after: page.next })}>More players</ButtonLink> : null}
    </Leaf>
  );
}
