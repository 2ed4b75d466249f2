import { newId, type Id } from "@/lib/core/ids";
import { database } from "@/lib/platform/database";

type Part = "coach" | "player" | "guardian";

/** A thread with who is in it and what was written, as rows; the database's own rules hold for it. */
export async function buildThread(given: {
  academyId: Id;
  playerId: Id;
  people: readonly { readonly userId: Id; readonly part: Part }[];
  messages?: readonly { readonly by: Id; readonly words: string; readonly at: string; readonly isHeld?: boolean }[];
}) {
  const { academyId, playerId, people } = given;
  const messageIds = (given.messages ?? []).map(newId);
  return database().$transaction(async (tx) => {
    const { id: threadId } = await tx.messageThread.upsert({ where: { academyId_playerId: { academyId, playerId } }, create: { id: newId(), academyId, playerId }, update: {} });
    await tx.threadPerson.createMany({ data: people.map((person) => ({ academyId, threadId, ...person })), skipDuplicates: true });
    for (const [index, { by, words, at, isHeld }] of (given.messages ?? []).entries()) {
      const authorPart = people.find(({ userId }) => userId === by)?.part ?? "coach";
      const writtenAt = new Date(at);
      const dueAt = isHeld ? new Date(writtenAt.getTime() + 12 * 3_600_000) : writtenAt;
      const gone = isHeld ? {} : { goneAt: writtenAt, rungAt: writtenAt };
      await tx.message.create({ data: { id: messageIds[index] ?? newId(), academyId, threadId, authorId: by, authorPart, words, writtenAt, dueAt, ...gone } });
    }
    return { threadId, messageIds };
  });
}
