import { currentSay, titled } from "@/lib/access/current-say";
import type { Say } from "@/lib/core/words/say";
import { newId } from "@/lib/core/ids";
import { Looked } from "@/lib/domains/messages/components/looked";
import { MessageForm } from "@/lib/domains/messages/components/message-form";
import { MessageList } from "@/lib/domains/messages/components/message-list";
import { ThreadPages } from "@/lib/domains/messages/components/thread-pages";
import { ThreadPeople } from "@/lib/domains/messages/components/thread-people";
import { getThread } from "@/lib/domains/messages/queries";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const generateMetadata = titled("Messages");

interface Props {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ after?: string | string[] }>;
}

export default async function Messages({ params, searchParams }: Props) {
  const [{ playerId }, { after }] = await Promise.all([params, searchParams]);
  const view = await getThread({ playerId, after: typeof after === "string" ? after : undefined });
  const say = await currentSay();
  const base = `/family/${playerId}/messages`;
  return (
    <Leaf kind="portal">
      {view.hasNew ? <Looked playerId={playerId} /> : null}
      <Opening title={say("Messages")} />
      <div className="flow-wide">
        <ThreadPeople view={view} say={say} />
        {view.closed ? <p className="trouble">{view.closed}</p> : null}
        <MessageForm playerId={playerId} messageId={newId()} label={say("Write to the coach")} hint={familyHint(view.hours, view.goesAt, say)} isClosed={view.closed !== null} />
        <section aria-label={say("What was written, newest first")}>
          {view.messages.length > 0 ? (
            <MessageList messages={view.messages} say={say} />
          ) : (
            <Empty title={after ? say("There is nothing older") : say("Nobody has written yet")} level="h2">
              {after ? null : say("A question about the homework, a lesson that must move: write it here, and everybody above reads it.")}
            </Empty>
          )}
        </section>
        <ThreadPages base={base} next={view.next} isOlder={Boolean(after)} say={say} />
      </div>
    </Leaf>
  );
}

function familyHint(hours: string, goesAt: string | null, say: Say): string {
  return goesAt ? say("It is quiet now: the coach can read it at once and is told at {when}. Text only.", { when: goesAt }) : say("Coaches are told from {hours}. Text only.", { hours });
}
