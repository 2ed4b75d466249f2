import { newId, type Id } from "@/lib/core/ids";
import type { Happening, TakeList } from "@/lib/domains/walkthroughs/list/schema";
import { database } from "@/lib/platform/database";
import { buildClip } from "./clip-story";

interface Given {
  readonly academyId: Id;
  readonly playerId: Id;
  readonly userId: Id;
  readonly sentAt?: Date | null;
  readonly happenings?: readonly Happening[];
  readonly durationMs?: number;
}

/** The list of a take over clips of 480 frames at 240 a second, as `buildClip` makes them; contact a second in. */
export function listOver(clipIds: readonly Id[], { happenings = [], durationMs = 10_000 }: Pick<Given, "happenings" | "durationMs"> = {}): TakeList {
  return {
    v: 1, durationMs,
    clips: clipIds.map((clipId, i) => ({ clipId, frameCount: 480, widthPx: 1280, heightPx: 720, zeroTick: 240 * 64, realSecondsPerFileSecond: 1, caption: `Swing ${i + 1}`, marks: [] })),
    start: {
      frames: clipIds.map(() => 240), looks: clipIds.map(() => ({ zoom: 1, x: 640, y: 360 })), flips: clipIds.map(() => false), inHand: 0, isLocked: true, hasPoints: false, over: null,
    },
    happenings: [...happenings],
  };
}

/** A walkthrough of one take and one chapter over one clip, as rows only; its voice is awaited. */
export async function buildTake(given: Given) {
  const { academyId, playerId, userId, sentAt = null } = given;
  const clip = await buildClip({ academyId, playerId, userId });
  const [walkthroughId, takeId, chapterId] = [newId(), newId(), newId()];
  const list = listOver([clip.clipId], given);
  await database().walkthrough.create({ data: { id: walkthroughId, academyId, playerId, side: "right", title: "Walkthrough", createdById: userId, sentAt } });
  await database().walkthroughTake.create({ data: { id: takeId, academyId, walkthroughId, list: list as object, durationMs: list.durationMs, voiceState: "awaited", cues: [], recordedById: userId } });
  await database().walkthroughChapter.create({ data: { id: chapterId, academyId, walkthroughId, takeId, position: 0, fromMs: 0, toMs: list.durationMs, title: "Opening" } });
  await database().walkthroughClip.create({ data: { academyId, walkthroughId, clipId: clip.clipId } });
  return { ...clip, walkthroughId, takeId, chapterId, list };
}
