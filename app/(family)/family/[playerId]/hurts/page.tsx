import { currentSay, titled } from "@/lib/access/current-say";
import { HurtsForm } from "@/lib/domains/practice/components/hurts-form";
import { StopPart } from "@/lib/domains/practice/components/stop-part";
import { partOptions } from "@/lib/domains/practice/components/words";
import { getStops } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily, reportPain } from "@/lib/domains/roster/actions";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const generateMetadata = titled("It hurts");

export default async function Hurts({ params }: { params: Promise<{ playerId: string }> }) {
  const view = await getStops({ playerId: (await params).playerId });
  const say = await currentSay();
  const isPaused = view.stops.length > 0;
  return (
    <Leaf kind="portal">
      {isPaused ? <StopPart view={view} clear={clearPauseAsFamily} level="h1" say={say} /> : <Opening title={say("It hurts")} sub={say("Stop swinging. Tell an adult. Then tell us here. Nobody is cross.")} />}
      <HurtsForm action={reportPain} playerId={view.playerId} parts={partOptions(say)} isPausedAlready={isPaused} />
    </Leaf>
  );
}
