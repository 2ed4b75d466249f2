import { FreshAnswerLine } from "@/lib/domains/clips/components/sent/fresh-answer";
import { findFreshAnswer } from "@/lib/domains/clips/sent/queries";
import { TodayPage } from "@/lib/domains/practice/components/today-page";
import { getToday } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily } from "@/lib/domains/roster/actions";
import { Leaf } from "@/lib/ui/leaf";

export const metadata = { title: "Today" };

interface Props {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ plan?: string | string[] }>;
}

export default async function Today({ params, searchParams }: Props) {
  const [{ playerId }, { plan }] = await Promise.all([params, searchParams]);
  const [view, answer] = await Promise.all([getToday({ playerId, planId: typeof plan === "string" ? plan : undefined }), findFreshAnswer({ playerId })]);
  return (
    <Leaf kind="portal">
      {answer ? <FreshAnswerLine answer={answer} /> : null}
      <TodayPage view={view} clear={clearPauseAsFamily} />
    </Leaf>
  );
}
