import { newId } from "@/lib/core/ids";
import { buildClip } from "../../domains/clip-story";
import type { Cast } from "../cast";
import type { AccessRow } from "../row";

const teaching = ["head", "coach"] as const;
const ofSide = (cast: Cast) => ({ playerId: cast.playerId, side: "right" });

export const rows: readonly AccessRow[] = [
  { name: "observations.get-what-first", may: teaching, input: ofSide },
  { name: "observations.get-player-overview", may: teaching, input: ofSide },
  { name: "observations.get-foci", may: teaching, input: ofSide },
  // Coaches read the list; which players stand in it is the scope's business.
  { name: "observations.list-cage-day", may: ["head", "coach", "otherCoach", "formerCoach", "headElsewhere", "coachElsewhere"], input: () => ({}) },
  {
    name: "observations.get-checkpoint-sheet", may: teaching,
    input: async ({ academyId, playerId, userIds }) => ({ swingId: (await buildClip({ academyId, playerId, userId: userIds.coach })).swingId }),
  },
  { name: "observations.keep-own-best", may: teaching, input: (cast) => ({ playerId: cast.playerId, clipId: newId() }) },
  { name: "observations.take-back-own-best", may: teaching, input: (cast) => ({ playerId: cast.playerId, ownBestId: newId() }) },
  { name: "observations.call-fault", may: teaching, input: (cast) => ({ ...ofSide(cast), swingId: newId(), faultId: "barrel-drag", state: "seen" }) },
  { name: "observations.answer-cause", may: teaching, input: (cast) => ({ ...ofSide(cast), nodeId: "eq-bat-heavy", answer: "yes" }) },
  { name: "observations.overrule-fault", may: teaching, input: (cast) => ({ ...ofSide(cast), faultId: "barrel-drag", reason: "the bat is new" }) },
  { name: "observations.undo-overrule", may: teaching, input: (cast) => ({ ...ofSide(cast), overruleId: newId() }) },
  { name: "observations.choose-focus", may: teaching, input: (cast) => ({ ...ofSide(cast), faultId: "barrel-drag" }) },
  { name: "observations.park-focus", may: teaching, input: (cast) => ({ ...ofSide(cast), focusId: newId() }) },
  { name: "observations.resume-focus", may: teaching, input: (cast) => ({ ...ofSide(cast), focusId: newId() }) },
  { name: "observations.get-tally", may: teaching, input: ofSide },
  { name: "observations.note-ball", may: teaching, input: (cast) => ({ ...ofSide(cast), task: "tee", swingKind: "power", press: "hard" }) },
  { name: "observations.take-back-ball", may: teaching, input: (cast) => ({ ...ofSide(cast), ballId: newId() }) },
  { name: "observations.call-symptom", may: teaching, input: (cast) => ({ ...ofSide(cast), symptomId: "jammed", state: "seen" }) },
  { name: "observations.answer-question", may: teaching, input: (cast) => ({ ...ofSide(cast), questionId: "one-hand-hold", answer: "drops" }) },
  { name: "observations.take-back-answer", may: teaching, input: (cast) => ({ ...ofSide(cast), questionId: "one-hand-hold" }) },
  { name: "observations.note-cue", may: teaching, input: (cast) => ({ ...ofSide(cast), faultId: "barrel-drag", cue: "Short to it" }) },
  { name: "observations.ask-for-order", may: teaching, input: ofSide },
  { name: "observations.get-coach-views", may: teaching, input: (cast) => ({ ...ofSide(cast), swingId: newId() }) },
  // In season the head coach alone agrees to a new change.
  { name: "observations.agree-in-season", may: ["head"], input: (cast) => ({ ...ofSide(cast), faultId: "barrel-drag", reason: "he asked for it" }) },
  // Whoever answers for the library's strengths.
  { name: "observations.list-overrule-hints", may: ["head", "headElsewhere"], input: () => ({}) },
  { name: "observations.end-focus", may: teaching, input: (cast) => ({ ...ofSide(cast), focusId: newId() }) },
];
