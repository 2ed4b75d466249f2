import { buildClip } from "../../domains/clip-story";
import type { AccessRow } from "../row";

export const rows: readonly AccessRow[] = [
  {
    name: "measurement.get-swing-readings",
    may: ["head", "coach"],
    input: async ({ academyId, playerId, userIds }) => ({ swingId: (await buildClip({ academyId, playerId, userId: userIds.coach })).swingId }),
  },
  {
    name: "measurement.list-comparable-readings",
    may: ["head", "coach"],
    input: async ({ academyId, playerId, userIds }) => ({ swingId: (await buildClip({ academyId, playerId, userId: userIds.coach })).swingId }),
  },
  {
    name: "measurement.get-clip-beside",
    may: ["head", "coach"],
    input: async ({ academyId, playerId, userIds }) => ({ clipId: (await buildClip({ academyId, playerId, userId: userIds.coach })).clipId }),
  },
  {
    name: "measurement.get-swings-beside",
    may: ["head", "coach"],
    input: async ({ academyId, playerId, userIds }) => ({ swingId: (await buildClip({ academyId, playerId, userId: userIds.coach })).swingId }),
  },
];
