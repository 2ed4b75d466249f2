import { PeopleTable } from "@/lib/domains/identity/components/people-table";
import { listPeople } from "@/lib/domains/identity/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "People" };

export default async function PeoplePage({ searchParams }: { searchParams: Promise<{ after?: string }> }) {
  const { after } = await searchParams;
  const page = await listPeople({ after });
  return (
    <Leaf>
      <Opening
        title="People"
        sub="Coaches, head coaches and admins. Guardians stand with their players in the roster."
        actions={<ButtonLink href="/people/new" kind="main">Invite somebody</ButtonLink>}
      />
      {page.rows.length > 0 ? <PeopleTable rows={page.rows} /> : <Empty title="Nobody here." />}
      {page.next ? <ButtonLink href={`/people?after=${page.next}`}>More people</ButtonLink> : null}
    </Leaf>
  );
}
