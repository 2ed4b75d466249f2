import { sentPlan } from "../../domains/practice-story";
import type { Cast } from "../cast";
import type { AccessRow } from "../row";

const family = ["player", "guardian"] as const;
const counted = ["head", "coach", ...family] as const;
const pia = (cast: Cast) => ({ playerId: cast.playerId });
const drill = async ({ academyId, playerId, userIds }: Cast) => ({ planDrillId: (await sentPlan({ academyId, playerId, authorId: userIds.coach })).dryId });

export const rows: readonly AccessRow[] = [
  { name: "practice.log-practice", may: family, input: drill },
  { name: "practice.correct-practice", may: family, input: async (cast) => ({ ...(await drill(cast)), times: "10" }) },
  { name: "practice.undo-practice", may: family, input: drill },

  { name: "practice.get-today", may: family, input: pia },
  { name: "practice.get-stops", may: family, input: pia },
  { name: "practice.get-parents-page", may: ["guardian"], input: pia },
  { name: "practice.get-homework-counts", may: counted, input: (cast) => ({ ...pia(cast), side: "right" }) },
  { name: "practice.list-week", may: counted, input: pia },
  // Which players stand in the list is the scope's business.
  { name: "practice.list-homework-counts", may: ["head", "coach", "otherCoach", "formerCoach", "headElsewhere", "coachElsewhere"], input: (cast) => ({ playerIds: [cast.playerId] }) },
];
