import { currentSay, titled } from "@/lib/access/current-say";
import { FreshAnswerLine } from "@/lib/domains/clips/components/sent/fresh-answer";
import { findFreshAnswer } from "@/lib/domains/clips/sent/queries";
import { getTranslations } from "@/lib/domains/library/translations/queries";
import { textsOf } from "@/lib/domains/plans/view";
import { TodayPage } from "@/lib/domains/practice/components/today-page";
import { getToday } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily } from "@/lib/domains/roster/actions";
import { Leaf } from "@/lib/ui/leaf";

export const generateMetadata = titled("Today");

interface Props {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ plan?: string | string[] }>;
}

export default async function Today({ params, searchParams }: Props) {
  const [{ playerId }, { plan }] = await Promise.all([params, searchParams]);
  const [view, answer] = await Promise.all([getToday({ playerId, planId: typeof plan === "string" ? plan : undefined }), findFreshAnswer({ playerId })]);
  const say = await currentSay(await getTranslations({ texts: view.note ? textsOf(view.note) : [] }));
  return (
    <Leaf kind="portal">
      {answer ? <FreshAnswerLine answer={answer} say={say} /> : null}
      <TodayPage view={view} clear={clearPauseAsFamily} say={say} />
    </Leaf>
  );
}
