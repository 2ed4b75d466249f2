import { currentSay, titled } from "@/lib/access/current-say";
import { getTranslations } from "@/lib/domains/library/translations/queries";
import { textsOf } from "@/lib/domains/plans/view";
import { HomeworkSheet } from "@/lib/domains/practice/components/homework-sheet";
import { PrintButton } from "@/lib/domains/practice/components/print-button";
import { getToday } from "@/lib/domains/practice/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf } from "@/lib/ui/leaf";

export const generateMetadata = titled("Homework sheet");

interface Props {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ plan?: string | string[] }>;
}

export default async function Sheet({ params, searchParams }: Props) {
  const [{ playerId }, { plan }] = await Promise.all([params, searchParams]);
  const view = await getToday({ playerId, planId: typeof plan === "string" ? plan : undefined });
  const say = await currentSay(await getTranslations({ texts: view.note ? textsOf(view.note) : [] }));
  return (
    <Leaf>
      {view.note ? (
        <>
          <div className="bar-line opens no-print">
            <PrintButton>{say("Print this sheet")}</PrintButton>
            <ButtonLink href={`/family/${view.playerId}/today`}>{say("Back to today")}</ButtonLink>
          </div>
          <div className="a4">
            <HomeworkSheet note={view.note} givenName={view.givenName} stopped={view.stops.length > 0} say={say} />
          </div>
        </>
      ) : (
        <Empty title={say("There is no homework yet")} level="h2">
          {say("The sheet is made from the note that your coach sends.")}
        </Empty>
      )}
    </Leaf>
  );
}
