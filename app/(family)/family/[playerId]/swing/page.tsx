import { currentSay, titled } from "@/lib/access/current-say";
import { getTranslations } from "@/lib/domains/library/translations/queries";
import { SentList } from "@/lib/domains/clips/components/sent/sent-list";
import { getSending } from "@/lib/domains/clips/sent/queries";
import { getMe } from "@/lib/domains/identity/queries";
import { MySwing } from "@/lib/domains/progress/components/my-swing";
import { getMySwing } from "@/lib/domains/progress/queries";
import { StopPart } from "@/lib/domains/practice/components/stop-part";
import { getStops } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily } from "@/lib/domains/roster/actions";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const generateMetadata = titled("My swing");

interface Props {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ side?: string | string[] }>;
}

export default async function MySwingPage({ params, searchParams }: Props) {
  const [{ playerId }, { side }] = await Promise.all([params, searchParams]);
  const [view, { rows }, stops, me] = await Promise.all([getMySwing({ playerId, side: side === "left" || side === "right" ? side : undefined }), getSending({ playerId }), getStops({ playerId }), getMe({})]);
  const say = await currentSay(await getTranslations({ texts: view.oneThing ? [view.oneThing] : [] }));
  return (
    <Leaf kind="portal">
      <Opening title={me.role === "player" ? say("My swing") : say("{name}’s swing", { name: view.givenName })} actions={<ButtonLink href={`/family/${playerId}/clips`}>{say("Send a clip")}</ButtonLink>} />
      <StopPart view={stops} clear={clearPauseAsFamily} say={say} />
      <SentList playerId={playerId} rows={rows.slice(0, 1).map((row) => ({ ...row, dayWords: say.day(row.day) }))} />
      <MySwing view={view} say={say} />
    </Leaf>
  );
}
