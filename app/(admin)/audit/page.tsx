import { AuditTable } from "@/lib/domains/admin/components/audit-table";
import { listAudit } from "@/lib/domains/admin/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Audit" };

export default async function AuditPage({ searchParams }: { searchParams: Promise<{ after?: string }> }) {
  const { after } = await searchParams;
  const page = await listAudit({ after });
  return (
    <Leaf>
      <Opening title="Audit" sub="What was done, by whom, newest first. Numbers stand for records; no names or texts are kept here." />
      {page.rows.length > 0 ? <AuditTable rows={page.rows} /> : <Empty title="Nothing was done yet.">Every change will stand here.</Empty>}
      {page.next ? <ButtonLink href={`/audit?after=${page.next}`}>Earlier</ButtonLink> : null}
    </Leaf>
  );
}
