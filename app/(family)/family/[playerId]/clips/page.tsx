import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { SendClip } from "@/lib/domains/clips/components/sent/send-clip";
import { SentList } from "@/lib/domains/clips/components/sent/sent-list";
import { sentWords as words } from "@/lib/domains/clips/components/sent/sent-words";
import { getSending } from "@/lib/domains/clips/sent/queries";
import { longDay } from "@/lib/domains/plans/view";
import { StopPart } from "@/lib/domains/practice/components/stop-part";
import { getStops } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily } from "@/lib/domains/roster/actions";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Send a clip" };

export default async function Clips({ params }: { params: Promise<{ playerId: string }> }) {
  const { playerId } = await params;
  const [page, stops, actor] = await Promise.all([getSending({ playerId }), getStops({ playerId }), currentActor()]);
  const userId = isPerson(actor) ? actor.userId : "";
  return (
    <Leaf kind="portal">
      <Opening title={words.title} sub={page.whyNot ? undefined : words.lead} />
      <StopPart view={stops} clear={clearPauseAsFamily} />
      {page.whyNot ? <p className={page.isPaused ? "closes" : "trouble"}>{page.whyNot}</p> : <SendClip userId={userId} playerId={playerId} sides={page.sides} />}
      <section className="opens">
        <h2>{words.list}</h2>
        {page.rows.length > 0 ? (
          <SentList playerId={playerId} rows={page.rows.map((row) => ({ ...row, dayWords: longDay(row.day) }))} />
        ) : (
          <Empty title={words.noneTitle} level="h3">
            {words.none}
          </Empty>
        )}
      </section>
    </Leaf>
  );
}
