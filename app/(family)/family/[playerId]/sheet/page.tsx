import { HomeworkSheet } from "@/lib/domains/practice/components/homework-sheet";
import { PrintButton } from "@/lib/domains/practice/components/print-button";
import { getToday } from "@/lib/domains/practice/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf } from "@/lib/ui/leaf";

export const metadata = { title: "Homework sheet" };

interface Props {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ plan?: string | string[] }>;
}

export default async function Sheet({ params, searchParams }: Props) {
  const [{ playerId }, { plan }] = await Promise.all([params, searchParams]);
  const view = await getToday({ playerId, planId: typeof plan === "string" ? plan : undefined });
  return (
    <Leaf>
      {view.note ? (
        <>
          <div className="bar-line opens no-print">
            <PrintButton>Print this sheet</PrintButton>
            <ButtonLink href={`/family/${view.playerId}/today`}>Back to today</ButtonLink>
          </div>
          <div className="a4">
            <HomeworkSheet note={view.note} givenName={view.givenName} stopped={view.stops.length > 0} />
          </div>
        </>
      ) : (
        <Empty title="There is no homework yet" level="h2">
          The sheet is made from the note that your coach sends.
        </Empty>
      )}
    </Leaf>
  );
}
