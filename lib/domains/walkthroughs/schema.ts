import { z } from "zod";
import type { Id } from "@/lib/core/ids";
import { SIDES } from "@/lib/domains/clips/schema";
import { idForm } from "@/lib/domains/roster/schema";
import { listForm, MOST_MS } from "./list/schema";

export const MOST_CHAPTERS = 60;
export const MOST_TAKES = 30;
/** Different clips in all takes of one walkthrough. */
export const MOST_CLIPS_SHOWN = 8;
const MOST_CAPTION_LETTERS = 200_000;

export const playerForm = z.object({ playerId: idForm });
export const sentListForm = z.object({ playerId: idForm, noteId: idForm.optional() });
export const searchForm = z.object({ playerId: idForm, text: z.string().max(200) });
export const walkthroughForm = z.object({ walkthroughId: idForm });
export const takeForm = z.object({ takeId: idForm });
export const talkPointsForm = z.object({ playerId: idForm, swingIds: z.array(idForm).max(8) });

/** A take as it was recorded. Its number is made where it was recorded, so that sending it twice keeps one. */
export const keepTakeForm = z.object({
  playerId: idForm,
  side: z.enum(SIDES),
  walkthroughId: idForm,
  takeId: idForm,
  list: listForm,
  /** Whether a voice follows. */
  hasVoice: z.boolean(),
  /** The chapter that it replaces; null: it is told after what there is. */
  chapterId: idForm.nullable(),
});

const ms = z.int().min(0).max(MOST_MS);
const title = z.string().trim().min(1, "Give it a name.").max(120, "Keep the name below 120 letters.");

/** All chapters in the order in which they are told; those left out are no longer told. */
export const arrangeForm = z.object({
  walkthroughId: idForm,
  title,
  chapters: z
    .array(z.strictObject({ id: idForm, title, fromMs: ms, toMs: ms }).refine((it) => it.toMs > it.fromMs, "A chapter must end after it begins."))
    .min(1, "One chapter at least must stay. To be rid of all, remove the walkthrough.")
    .max(MOST_CHAPTERS),
});
export const writeWordsForm = z.object({ walkthroughId: idForm, captions: z.string().max(MOST_CAPTION_LETTERS, "That is more than can be kept as captions.") });
export const writeSummaryForm = z.object({ walkthroughId: idForm, summary: z.string().trim().max(1200, "Keep the summary below 1,200 letters.") });
export const sendForm = z.object({ walkthroughId: idForm, noteId: z.union([z.literal("").transform(() => null), idForm.nullable()]).default(null) });

/** Words as they are kept with a take. */
export const cuesForm = z.array(z.strictObject({ fromMs: ms, toMs: ms, text: z.string().max(600) }));

/** Addresses of a walkthrough's bytes; every one of them asks who is there before it answers. */
export const walkthroughAddress = {
  voice: (takeId: Id) => `/api/walkthroughs/takes/${takeId}/voice`,
  film: (id: Id) => `/api/walkthroughs/${id}/film`,
  parcel: (id: Id) => `/api/walkthroughs/${id}/parcel`,
};
