import { notFound } from "next/navigation";
import { DrillForm } from "@/lib/domains/library/components/drill-form";
import { getRecordForChange } from "@/lib/domains/library/queries";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Propose a change of a drill" };

export default async function ChangeDrillPage({ params }: { params: Promise<{ id: string }> }) {
  const { drill, baseEditionId } = await getRecordForChange({ subject: "drill", id: (await params).id });
  if (!drill) notFound();
  return (
    <Leaf>
      <Opening title={`Propose a change: ${drill.name}`} sub="Change what you would change; the rest stays. Nothing is in force until the head coach approves it." />
      <Entry side="The drill" isHeading>
        <DrillForm drill={drill} baseEditionId={baseEditionId} isNew={false} />
      </Entry>
    </Leaf>
  );
}
