import { newId } from "@/lib/core/ids";
import { buildTake } from "../../domains/walkthrough-story";
import type { Cast } from "../cast";
import type { AccessRow } from "../row";

const teaching = ["head", "coach"] as const;
const family = ["head", "coach", "player", "guardian"] as const;

const built = async ({ academyId, playerId, userIds }: Cast, sentAt: Date | null) => buildTake({ academyId, playerId, userId: userIds.coach, sentAt });
const sent = new Date("2026-11-25T12:00:00Z");
const aDraft = async (cast: Cast) => ({ walkthroughId: (await built(cast, null)).walkthroughId });
const aSentOne = async (cast: Cast) => ({ walkthroughId: (await built(cast, sent)).walkthroughId });
/** A walkthrough that was sent while filming was permitted, of somebody for whom it no longer is: Otto never gave a consent. */
const ofOtto = async ({ academyId, otherPlayerId, userIds }: Cast) => ({ walkthroughId: (await buildTake({ academyId, playerId: otherPlayerId, userId: userIds.otherCoach, sentAt: sent })).walkthroughId });

export const rows: readonly AccessRow[] = [
  { name: "walkthroughs.get-walkthrough", may: teaching, input: aDraft },
  { name: "walkthroughs.get-sent-walkthrough", may: family, input: aSentOne },
  { name: "walkthroughs.list-walkthroughs", may: teaching, input: (cast) => ({ playerId: cast.playerId }) },
  { name: "walkthroughs.list-sent-walkthroughs", may: family, input: (cast) => ({ playerId: cast.playerId }) },
  { name: "walkthroughs.search", may: teaching, input: (cast) => ({ playerId: cast.playerId, text: "load" }) },
  { name: "walkthroughs.get-talk-points", may: teaching, input: (cast) => ({ playerId: cast.playerId, swingIds: [] }) },
  {
    name: "walkthroughs.keep-take", may: teaching,
    input: async (cast) => ({ playerId: cast.playerId, side: "right", walkthroughId: newId(), takeId: newId(), hasVoice: false, chapterId: null, list: (await built(cast, null)).list }),
  },
  {
    name: "walkthroughs.arrange-chapters", may: teaching,
    input: async (cast) => {
      const { walkthroughId, chapterId } = await built(cast, null);
      return { walkthroughId, title: "After the lesson", chapters: [{ id: chapterId, title: "Opening", fromMs: 0, toMs: 1000 }] };
    },
  },
  { name: "walkthroughs.write-words", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), captions: "" }) },
  { name: "walkthroughs.write-summary", may: teaching, input: async (cast) => ({ ...(await aDraft(cast)), summary: "We look at the load." }) },
  { name: "walkthroughs.send-walkthrough", may: teaching, input: aDraft },
  { name: "walkthroughs.take-back-walkthrough", may: teaching, input: aSentOne },
  { name: "walkthroughs.remove-walkthrough", may: teaching, input: aDraft },
  { name: "walkthroughs.ask-film", may: family, input: aSentOne },
  { name: "walkthroughs.send-voice", may: ["coach"], input: async (cast) => ({ takeId: (await built(cast, null)).takeId }) },
  { name: "walkthroughs.play-voice", may: family, input: async (cast) => ({ takeId: (await built(cast, sent)).takeId }) },
  { name: "walkthroughs.show-film", may: family, input: aSentOne },
  // Without a consent nothing is taken away, not by those who teach him either.
  { name: "walkthroughs.take-parcel", may: [], input: ofOtto },
];

