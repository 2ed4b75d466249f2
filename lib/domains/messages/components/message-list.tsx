import { ActButton } from "@/lib/domains/identity/components/act-button";
import { longDay } from "@/lib/domains/plans/view";
import { Entry } from "@/lib/ui/entry";
import { State } from "@/lib/ui/state";
import { takeBackMessage } from "../actions";
import type { CoachMessageView, MessageView } from "../view";

const nameOf = ({ from, isMine }: MessageView) => (isMine ? "You" : from);

/** What was written, newest first. A text is shown as it was typed and as nothing else. */
export function MessageList({ messages }: { messages: readonly (MessageView | CoachMessageView)[] }) {
  return messages.map((message) => {
    const waits = "waits" in message ? message.waits : null;
    const when = `${longDay(message.day)}, ${message.time}`;
    return (
      <Entry key={message.id} side={nameOf(message)} note={message.part} label={`${message.from}, ${message.part}, ${when}`} isNow={waits !== null}>
        <div className="flow">
          <p className="message-words" dir="auto">
            {message.words}
          </p>
          {waits === null ? (
            <p className="note">{when}</p>
          ) : (
            <>
              <p className="small">
                <State is="waiting">{waits}</State>. The family does not see it yet.
              </p>
              {"mayTakeBack" in message && message.mayTakeBack ? (
                <ActButton action={takeBackMessage} fields={{ messageId: message.id }} label={`Take back the message of ${when}`}>
                  Take back
                </ActButton>
              ) : null}
            </>
          )}
        </div>
      </Entry>
    );
  });
}
