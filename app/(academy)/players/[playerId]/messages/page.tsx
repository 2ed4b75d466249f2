import type { Metadata } from "next";
import Link from "next/link";
import { newId } from "@/lib/core/ids";
import { ActButton } from "@/lib/domains/identity/components/act-button";
import { settleThread } from "@/lib/domains/messages/actions";
import { Looked } from "@/lib/domains/messages/components/looked";
import { MessageForm } from "@/lib/domains/messages/components/message-form";
import { MessageList } from "@/lib/domains/messages/components/message-list";
import { ThreadPages } from "@/lib/domains/messages/components/thread-pages";
import { ThreadPeople } from "@/lib/domains/messages/components/thread-people";
import { getThreadForCoach } from "@/lib/domains/messages/queries";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Messages" };

interface Props {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ after?: string | string[] }>;
}

export default async function ThreadPage({ params, searchParams }: Props) {
  const [{ playerId }, { after }] = await Promise.all([params, searchParams]);
  const view = await getThreadForCoach({ playerId, after: typeof after === "string" ? after : undefined });
  const base = `/players/${playerId}/messages`;
  return (
    <Leaf>
      {view.hasNew ? <Looked playerId={playerId} /> : null}
      <Opening
        title="Messages"
        sub={
          <>
            With the family of <Link href={`/players/${playerId}`}>{view.playerName}</Link>. What is written stays: nothing is edited or removed.
          </>
        }
        actions={
          view.isUnanswered ? (
            <ActButton action={settleThread} fields={{ playerId }}>
              Needs no answer
            </ActButton>
          ) : undefined
        }
      />
      <div className="flow-wide">
        <ThreadPeople view={view} />
        {view.closed ? <p className="trouble">{view.closed}</p> : null}
        <MessageForm
          playerId={playerId}
          messageId={newId()}
          label={`Write to ${view.givenName}’s family`}
          hint={view.goesAt ? `It is quiet now: this goes at ${view.goesAt}, and you can take it back until then. Text only.` : `Messages go out from ${view.hours}. Text only.`}
          isClosed={view.closed !== null}
        />
        <section aria-label="What was written, newest first">
          {view.messages.length > 0 ? <MessageList messages={view.messages} /> : <Empty title={after ? "There is nothing older" : "Nobody has written yet"} level="h2" />}
        </section>
        <ThreadPages base={base} next={view.next} isOlder={Boolean(after)} />
      </div>
    </Leaf>
  );
}
