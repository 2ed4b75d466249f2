import type { Id } from "@/lib/core/ids";
import { stateAt } from "../list/rules";
import { placeAt } from "../rules";
import type { WalkthroughView } from "../view";

/** The frame of each clip with which a walkthrough begins; of clips that may be shown to who looks, and of no other. */
export function openingFrames({ chapters, takes, clips }: Pick<WalkthroughView, "chapters" | "takes" | "clips">): readonly { readonly clipId: Id; readonly frame: number }[] {
  const readable = new Map(takes.flatMap(({ id, list }) => (list ? [[id, list] as const] : [])));
  const place = placeAt(chapters.filter(({ takeId }) => readable.has(takeId)), 0);
  const list = place && readable.get(place.stretch.takeId);
  if (!list) return [];
  const shown = list.clips.map(({ clipId }) => clips[clipId]?.clip ?? null);
  const { frames } = stateAt(list, shown.map((clip) => clip?.frameTimes ?? null), place.takeMs);
  return list.clips.flatMap(({ clipId }, i) => (shown[i] ? [{ clipId, frame: frames[i] ?? 0 }] : []));
}
