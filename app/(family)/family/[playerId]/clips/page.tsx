import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { currentSay, titled } from "@/lib/access/current-say";
import { SendClip } from "@/lib/domains/clips/components/sent/send-clip";
import { SentList } from "@/lib/domains/clips/components/sent/sent-list";
import { getSending } from "@/lib/domains/clips/sent/queries";
import { StopPart } from "@/lib/domains/practice/components/stop-part";
import { getStops } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily } from "@/lib/domains/roster/actions";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const generateMetadata = titled("Send a clip");

export default async function Clips({ params }: { params: Promise<{ playerId: string }> }) {
  const { playerId } = await params;
  const [page, stops, actor] = await Promise.all([getSending({ playerId }), getStops({ playerId }), currentActor()]);
  const userId = isPerson(actor) ? actor.userId : "";
  const say = await currentSay();
  return (
    <Leaf kind="portal">
      <Opening title={say("Send a clip")} sub={page.whyNot ? undefined : say("One swing. Your coach looks at it and answers.")} />
      <StopPart view={stops} clear={clearPauseAsFamily} say={say} />
      {page.whyNot ? <p className={page.isPaused ? "closes" : "trouble"}>{page.whyNot}</p> : <SendClip userId={userId} playerId={playerId} sides={page.sides} />}
      <section className="opens">
        <h2>{say("What you sent")}</h2>
        {page.rows.length > 0 ? (
          <SentList playerId={playerId} rows={page.rows.map((row) => ({ ...row, dayWords: say.day(row.day) }))} />
        ) : (
          <Empty title={say("You have sent nothing yet")} level="h3">
            {say("A clip that you send stands here, with what became of it.")}
          </Empty>
        )}
      </section>
    </Leaf>
  );
}
