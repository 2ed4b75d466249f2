import { redirect } from "next/navigation";
import { currentSay, titled } from "@/lib/access/current-say";
import { LanguageSwitch } from "@/lib/domains/identity/components/language-switch";
import { getMe } from "@/lib/domains/identity/queries";
import { getFamilyPlayers } from "@/lib/domains/roster/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf } from "@/lib/ui/leaf";
import { RunningHead } from "@/lib/ui/running-head";

export const generateMetadata = titled("Today");

/** The portal's door: the first of the players of this login. */
export default async function TodayDoor() {
  const [first] = await getFamilyPlayers({});
  if (first) redirect(`/family/${first.id}/today`);
  const me = await getMe({});
  const say = await currentSay();
  return (
    <>
      <RunningHead house={{ name: me.academyName, href: "/today" }} items={[]} say={say} who={<LanguageSwitch />} />
      <Leaf kind="portal">
        <Empty level="h2" title={say("No player belongs to this sign-in")} action={<ButtonLink href="/account">{say("My account")}</ButtonLink>}>
          {say("Ask your academy. They can join it to a player in a minute.")}
        </Empty>
      </Leaf>
    </>
  );
}
