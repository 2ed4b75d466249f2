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
  const view = await getToday({ playerId, planId: typeof plan === "string" ? plan : undefined });
  return (
    <Leaf kind="portal">
      <TodayPage view={view} clear={clearPauseAsFamily} />
    </Leaf>
  );
}
