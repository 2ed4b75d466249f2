import { notFound } from "next/navigation";
import { FaultForm } from "@/lib/domains/library/components/fault-form";
import { getFault, getRecordForChange } from "@/lib/domains/library/queries";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Propose a change of a fault" };

export default async function ChangeFaultPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const { fault, baseEditionId } = await getRecordForChange({ subject: "fault", id });
  const { lookAlikes } = await getFault({ id });
  if (!fault) notFound();
  return (
    <Leaf>
      <Opening title={`Propose a change: ${fault.name}`} sub="Change what you would change; the rest stays. Nothing is in force until the head coach approves it." />
      <Entry side="The fault" isHeading>
        <FaultForm fault={fault} baseEditionId={baseEditionId} otherNames={lookAlikes.map(({ words }) => words)} />
      </Entry>
    </Leaf>
  );
}
