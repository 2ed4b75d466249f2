import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { InvalidError, OvertakenError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import type { Transaction } from "@/lib/platform/database";
import { lockPlan, takeUp, type Written } from "../commands";
import type { chooseCueForm, writeNoteForm, writePrivateNoteForm } from "../schema";
import { readSenders } from "../scope";
import { missingParts, remarksOn, remarksOnPart, type NoteWords, type Remark } from "@/lib/prescribe/wording";
import { bringTogether, isSameText } from "./rules";

type Given<Form extends z.ZodType> = z.infer<Form>;

const PART_NAMES = { keptWell: "What was kept well", oneThing: "The one thing", why: "Why", forFamily: "For the family" } as const;

/** Refuses what may not be kept, each sentence at the part it is about. */
function refuseHard(remarks: readonly Remark[]): void {
  const hard = remarks.filter(({ isHard }) => isHard);
  const [first] = hard;
  if (!first) return;
  const fields: Record<string, string> = {};
  for (const { part, words } of hard) fields[part] ??= words;
  throw new InvalidError(hard.length > 1 ? `${hard.length} things are not right yet. ${first.words}` : first.words, fields);
}

async function nameOf(tx: Transaction, academyId: Id, userId: Id | null): Promise<string> {
  return (userId && (await readSenders(tx, academyId, [userId])).names.get(userId)) || "Another coach";
}

/** Chooses the cue. Another cue than the one that was seen stands until its chooser's colleague has read it. */
export async function chooseCue(tx: Transaction, actor: Person, granted: Written, given: Given<typeof chooseCueForm>): Promise<void> {
  const setting = await takeUp(tx, actor, granted);
  const cue = (given.ownCue || given.cue).replace(/^[“"]+|[”"]+$/g, "").trim();
  if (cue === "") throw new InvalidError("Choose a cue, or write your own.", { ownCue: "Choose a cue, or write your own." });
  if (cue.length > 120) throw new InvalidError("A cue is short: 120 letters at most.", { ownCue: "A cue is short: 120 letters at most." });
  const kept = setting.note.cue;
  if (given.was !== undefined && !isSameText(kept, given.was) && !isSameText(kept, cue)) {
    throw new OvertakenError(`“${kept}” was chosen since you opened this page, and stands. You had “${cue}”: choose it again to put it over that.`);
  }
  refuseHard(remarksOnPart("cue", cue, setting.planning.reader).map((remark) => ({ ...remark, part: "ownCue" as never })));
  await tx.plan.update({ where: { id: granted.id }, data: { cue } });
  await tx.note.update({ where: { id: setting.note.id }, data: { cue } });
}

/**
 * Keeps the family's part as a draft. What was kept well comes first; the words are looked at as they are written. What another
 * wrote since the sender looked is never lost: parts that only one changed come together, of a part that both changed the earlier stands.
 */
export async function writeNote(tx: Transaction, actor: Person, granted: Written, given: Given<typeof writeNoteForm>): Promise<{ readonly told: readonly string[]; readonly remarks: readonly Remark[] }> {
  const setting = await takeUp(tx, actor, granted);
  const { planId: _planId, was, ...sent } = given;
  const { keptWell, oneThing, why, forFamily, cue, wordsById } = setting.note;
  const kept = { keptWell, oneThing, why, forFamily };
  const { parts, taken, overtaken } = bringTogether(kept, was ?? kept, sent);
  const named = (names: readonly (keyof typeof PART_NAMES)[]) => names.map((part) => `“${PART_NAMES[part]}”`).join(" and ");
  const by = taken.length + overtaken.length > 0 ? await nameOf(tx, granted.academyId, wordsById) : "";
  if (overtaken.length > 0) throw new OvertakenError(`${by} was faster with ${named(overtaken)}. Both are shown; nothing of either is lost.`);
  const words: NoteWords = { ...parts, cue };
  const [missing] = missingParts(words);
  if (missing?.part === "keptWell") throw new InvalidError(missing.words, { keptWell: missing.words });
  const remarks = remarksOn(words, setting.planning.reader);
  refuseHard(remarks.filter(({ part }) => part !== "cue"));
  await tx.note.update({ where: { id: setting.note.id }, data: { ...parts, wordsById: actor.userId } });
  return { told: taken.length > 0 ? [`${by} wrote ${named(taken)} meanwhile; that stands too.`] : [], remarks };
}

/** Keeps what only coaches see, in a table of its own; it may be written after the note was sent, too. */
export async function writePrivateNote(tx: Transaction, actor: Person, granted: Written, given: Given<typeof writePrivateNoteForm>): Promise<void> {
  const { academyId } = granted;
  const { words, was } = given;
  await lockPlan(tx, granted);
  const { id: noteId, private: kept } = await tx.note.findUniqueOrThrow({ where: { planId: granted.id }, select: { id: true, private: true } });
  if (was && bringTogether({ words: kept?.words ?? "" }, was, { words }).overtaken.length > 0) {
    throw new OvertakenError(`${await nameOf(tx, academyId, kept?.writtenById ?? null)} was faster. Both are shown; nothing of either is lost.`);
  }
  if (words === "") await tx.privateNote.deleteMany({ where: { academyId, noteId } });
  else await tx.privateNote.upsert({ where: { academyId_noteId: { academyId, noteId } }, create: { academyId, noteId, words, writtenById: actor.userId }, update: { words, writtenById: actor.userId } });
}
