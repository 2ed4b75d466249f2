import { newId } from "@/lib/core/ids";
import { database } from "@/lib/platform/database";
import { buildClip, facts } from "../../domains/clip-story";
import type { Cast, Column } from "../cast";
import type { AccessRow } from "../row";

const COACHES: readonly Column[] = ["head", "coach"];
/** Who films groups in an academy: of whom, the scope says. */
const EVERY_COACH: readonly Column[] = ["head", "coach", "otherCoach", "formerCoach", "headElsewhere", "coachElsewhere"];

const clip = async ({ academyId, playerId, userIds }: Cast) => buildClip({ academyId, playerId, userId: userIds.coach });
const swingInput = async (cast: Cast) => ({ swingId: (await clip(cast)).swingId });
const clipInput = async (cast: Cast) => ({ clipId: (await clip(cast)).clipId });
const nothing = () => ({});

export const rows: readonly AccessRow[] = [
  { name: "clips.get-swing-to-sort", may: COACHES, input: swingInput },
  { name: "clips.move-swing", may: COACHES, input: async (cast) => ({ ...(await swingInput(cast)), toPlayerId: cast.otherPlayerId }) },
  {
    name: "clips.move-upload",
    may: ["coach"],
    input: async ({ academyId, playerId, otherPlayerId, userIds }) => {
      const { id: uploadId } = await database().upload.create({ data: { id: newId(), academyId, playerId, userId: userIds.coach, facts, byteLength: 10n, state: "receiving" } });
      return { uploadId, toPlayerId: otherPlayerId };
    },
  },
  { name: "clips.join-swings", may: COACHES, input: async (cast) => ({ ...(await swingInput(cast)), intoSwingId: (await clip(cast)).swingId }) },
  { name: "clips.part-clip", may: COACHES, input: async (cast) => { const { swingId, clipId } = await clip(cast); return { swingId, clipId }; } },
  { name: "clips.get-film-to-cut", may: COACHES, input: clipInput },
  { name: "clips.look-for-swings", may: COACHES, input: clipInput },
  { name: "clips.cut-clip", may: COACHES, input: async (cast) => ({ ...(await clipInput(cast)), cuts: [{ firstFrame: 0, lastFrame: 100, contactFrame: null, playerId: cast.playerId }] }) },
  { name: "clips.list-lesson-players", may: EVERY_COACH, input: nothing },
  { name: "clips.list-own-uploads", may: EVERY_COACH, input: nothing },
  { name: "clips.find-own-last-facts", may: EVERY_COACH, input: nothing },
];
