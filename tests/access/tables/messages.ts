import { newId } from "@/lib/core/ids";
import { buildThread } from "@/seed/builders/messages";
import type { Cast } from "../cast";
import type { AccessRow } from "../row";

const family = ["player", "guardian"] as const;
const teaching = ["head", "coach"] as const;
const pia = ({ playerId }: Cast) => ({ playerId });
/** Something that Pia's coach wrote in quiet hours and that has not gone. */
const aHeldMessage = async ({ academyId, playerId, userIds }: Cast) => {
  const people = [{ userId: userIds.guardian, part: "guardian" }, { userId: userIds.coach, part: "coach" }] as const;
  const { messageIds } = await buildThread({ academyId, playerId, people, messages: [{ by: userIds.coach, words: "Tomorrow at four.", at: "2026-11-25T03:00:00Z", isHeld: true }] });
  return { messageId: messageIds[0] };
};

export const rows: readonly AccessRow[] = [
  { name: "messages.get-thread", may: family, input: pia },
  { name: "messages.get-thread-for-coach", may: teaching, input: pia },
  { name: "messages.count-new", may: family, input: pia },
  // Whose threads stand in the list is the scope's business.
  { name: "messages.list-unanswered", may: ["head", "coach", "otherCoach", "formerCoach", "headElsewhere", "coachElsewhere"], input: (cast) => ({ playerIds: [cast.playerId] }) },
  { name: "messages.send-message", may: [...teaching, ...family], input: (cast) => ({ ...pia(cast), messageId: newId(), words: "Hello." }) },
  { name: "messages.look-at-thread", may: [...teaching, ...family], input: pia },
  { name: "messages.settle", may: teaching, input: pia },
  // Whoever wrote it, and not the head coach for another.
  { name: "messages.take-back", may: ["coach"], input: aHeldMessage },

  { name: "messages.list-hours", may: ["admin", "adminElsewhere"], input: () => ({}) },
  { name: "messages.set-hours", may: ["admin"], input: ({ locationId }) => ({ locationId, opensHour: 7, closesHour: 21 }) },
];
