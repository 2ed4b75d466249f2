import { notFound } from "next/navigation";
import { DrillForm } from "@/lib/domains/library/components/drill-form";
import { getRecordForChange } from "@/lib/domains/library/queries";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Propose a new drill" };

export default async function NewDrillPage({ params }: { params: Promise<{ id: string }> }) {
  const { drill, baseEditionId } = await getRecordForChange({ subject: "drill", id: (await params).id });
  if (!drill) notFound();
  return (
    <Leaf>
      <Opening title={`Propose a new drill like ${drill.name}`} sub="It begins as that one. Who must be there, gear, helmet, levels and what it helps with stay as they are there. Nobody can plan it until the head coach approves it." />
      <Entry side="The drill" isHeading>
        <DrillForm drill={drill} baseEditionId={baseEditionId} isNew={true} />
      </Entry>
    </Leaf>
  );
}
