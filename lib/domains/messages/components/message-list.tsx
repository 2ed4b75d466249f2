import { ActButton } from "@/lib/domains/identity/components/act-button";
import { english, type PlainSentence, type Say } from "@/lib/core/words/say";
import { Entry } from "@/lib/ui/entry";
import { State } from "@/lib/ui/state";
import { takeBackMessage } from "../actions";
import type { Part } from "../rules";
import type { CoachMessageView, MessageView } from "../view";

const nameOf = ({ from, isMine }: MessageView, say: Say) => (isMine ? say("You") : from);
export const PART_NAMES = { coach: "coach", player: "player", guardian: "guardian" } as const satisfies Readonly<Record<Part, PlainSentence>>;

/** What was written, newest first. A text is shown as it was typed and as nothing else. */
export function MessageList({ messages, say = english }: { messages: readonly (MessageView | CoachMessageView)[]; say?: Say }) {
  return messages.map((message) => {
    const waits = "waits" in message ? message.waits : null;
    const part = say(PART_NAMES[message.part]);
    const when = `${say.day(message.day)}, ${message.time}`;
    return (
      <Entry key={message.id} side={nameOf(message, say)} note={part} label={`${message.from}, ${part}, ${when}`} isNow={waits !== null}>
        <div className="flow">
          <p className="message-words" dir="auto" lang={message.part === "coach" ? say.asWritten : undefined}>
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
