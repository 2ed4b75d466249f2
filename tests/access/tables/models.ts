import { newId } from "@/lib/core/ids";
import { buildConsent } from "@/seed/builders/people";
import { buildClip } from "../../domains/clip-story";
import { buildModel, modelFields } from "../../domains/model-story";
import type { Cast } from "../cast";
import type { AccessRow } from "../row";

const clip = async ({ academyId, playerId, userIds }: Cast) => buildClip({ academyId, playerId, userId: userIds.coach });
/** A swing of Pia that the head coach keeps as a model. */
const modelInput = async (cast: Cast) => {
  const { academyId, playerId, userIds } = cast;
  await buildConsent({ academyId, playerId, recordedById: userIds.admin, use: "staff-training" });
  return { modelId: (await buildModel({ academyId, playerId, swingId: (await clip(cast)).swingId, userId: userIds.head })).id };
};

export const rows: readonly AccessRow[] = [
  { name: "clips.list-models", may: ["head", "headElsewhere"], input: () => ({}) },
  { name: "clips.get-model", may: ["head"], input: modelInput },
  { name: "clips.get-model-draft", may: ["head"], input: async (cast) => ({ swingId: (await clip(cast)).swingId }) },
  { name: "clips.list-models-for", may: ["head", "coach"], input: ({ playerId }) => ({ playerId, side: "right", view: "side" }) },
  // Which models there are is the query's business: of another academy's it finds none.
  { name: "clips.find-model-film", may: ["head", "coach", "otherCoach", "formerCoach", "headElsewhere", "coachElsewhere"], input: () => ({ modelId: newId() }) },
  { name: "clips.keep-model", may: ["head"], input: async (cast) => ({ swingId: (await clip(cast)).swingId, ...modelFields }) },
  { name: "clips.edit-model", may: ["head"], input: async (cast) => ({ ...(await modelInput(cast)), ...modelFields }) },
  { name: "clips.withdraw-model", may: ["head"], input: modelInput },
  { name: "clips.restore-model", may: ["head"], input: modelInput },
];
