import { newId } from "@/lib/core/ids";
import { database } from "@/lib/platform/database";
import type { Cast } from "../cast";
import type { AccessRow } from "../row";

const teaching = ["head", "coach"] as const;
const family = ["head", "coach", "player", "guardian"] as const;
const ofSide = (cast: Cast) => ({ playerId: cast.playerId, side: "right" });

/** A plan with its note, as rows only. */
async function planOf(cast: Cast, sentAt: Date | null = null) {
  const { academyId, playerId, userIds } = cast;
  const ofPlayer = { academyId, playerId, side: "right", editionId: newId(), cue: "Belt first" };
  const [focusId, planId, noteId] = [newId(), newId(), newId()];
  const until = new Date("2026-12-09");
  await database().focus.create({ data: { id: focusId, academyId, playerId, side: "right", faultId: `fault-${focusId}`, state: "ended", editionId: newId(), chosenById: userIds.coach } });
  const plan = { id: planId, focusId, level: "11-12", minutesPerDay: 12, daysPerWeek: 3, startsOn: new Date("2026-11-25"), endsOn: until, createdById: userIds.coach };
  await database().plan.create({ data: { ...ofPlayer, ...plan, state: sentAt ? "sent" : "draft", sentAt } });
  const words = { keptWell: "Your load is quiet.", oneThing: "The belt goes first.", why: "", forFamily: "" };
  await database().note.create({ data: { ...ofPlayer, ...words, id: noteId, planId, authorId: userIds.coach, nextCheckOn: until, marks: [], sentAt } });
  return { planId, noteId };
}

const aDraft = async (cast: Cast) => ({ planId: (await planOf(cast)).planId });
const sent = new Date("2026-11-25T12:00:00Z");

export const rows: readonly AccessRow[] = [
  { name: "plans.get-plan-draft", may: teaching, input: ofSide },
  { name: "plans.list-sent-plans", may: family, input: (cast) => ({ playerId: cast.playerId }) },
  { name: "plans.get-sent-plan", may: family, input: ofSide },
  { name: "plans.list-sent-notes", may: family, input: (cast) => ({ playerId: cast.playerId }) },
  { name: "plans.get-note-for-family", may: family, input: async (cast) => ({ noteId: (await planOf(cast, sent)).noteId }) },
  { name: "plans.get-note-for-coach", may: teaching, input: async (cast) => ({ noteId: (await planOf(cast, sent)).noteId }) },
  { name: "plans.get-homework-summary", may: teaching, input: ofSide },
  // Coaches read it; of which players there is something in it is the scope's business.
  { name: "plans.list-homework", may: ["head", "coach", "otherCoach", "formerCoach", "headElsewhere", "coachElsewhere"], input: (cast) => ({ playerIds: [cast.playerId] }) },
  { name: "plans.start-plan", may: teaching, input: ofSide },
  { name: "plans.set-days", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), minutesPerDay: 10, daysPerWeek: 3, nextCheckOn: "2026-12-09" }) },
  { name: "plans.add-drill", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), drillId: "mirror-load" }) },
  { name: "plans.suggest-week", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), practiceOrder: "blocked" }) },
  { name: "plans.set-weekdays", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), drillId: "mirror-load", weekdays: [1, 4] }) },
  { name: "plans.remove-drill", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), drillId: "mirror-load" }) },
  { name: "plans.move-drill", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), drillId: "mirror-load", direction: "up" }) },
  { name: "plans.set-dose", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), drillId: "mirror-load", timesPerDay: 10, minutesPerDay: 5 }) },
  { name: "plans.choose-cue", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), cue: "Belt first" }) },
  { name: "plans.choose-still", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), still: "" }) },
  { name: "plans.write-note", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), keptWell: "Your load is quiet." }) },
  { name: "plans.write-private-note", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), words: "for coaches" }) },
  { name: "plans.send-note", may: teaching, input: aDraft },
];
