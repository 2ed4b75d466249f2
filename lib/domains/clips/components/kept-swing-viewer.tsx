"use client";

import { useRouter } from "next/navigation";
import { useMemo } from "react";
import type { ActionState } from "@/lib/core/action-state";
import { addMark, clearEvent, markPointUnseen, placePoint, removeMark, removePoint, setEvent } from "../actions";
import { placeFollowed } from "../following/actions";
import { placePoints, swapPoints } from "../points/actions";
import { Overtaken, type EventSaid, type Keeping } from "./sending";
import { ToldProblem } from "./told-problem";
import { SwingViewer, type SwingViewerProps } from "./swing-viewer";

/** What an action gave back; what was not kept is thrown with its sentence. */
async function must(sent: Promise<ActionState>): Promise<unknown> {
  const state = await sent;
  if (state.status === "refused") throw state.isOvertaken ? new Overtaken(state.message) : new ToldProblem(state.message);
  return state.status === "done" ? state.data : undefined;
}

const onClip = (was: EventSaid["was"], clipId: string) => was && { clipId, ...was };

/** The swing view of one clip, with everything that is done in it kept. */
export function KeptSwingViewer(props: Omit<SwingViewerProps, keyof Keeping>) {
  const clipId = props.clip.id;
  const router = useRouter();
  const keeping = useMemo<Keeping>(
    () => ({
      onSetEvent: ({ event, frameIndex, onClipId = clipId, was }) => must(setEvent({ clipId: onClipId, event, frameIndex, was: onClip(was, clipId) })),
      onClearEvent: ({ event, was }) => must(clearEvent({ clipId, event, was: onClip(was, clipId) })),
      onPlacePoint: (point) => must(placePoint({ clipId, ...point })),
      onPointUnseen: (point) => must(markPointUnseen({ clipId, ...point })),
      onRemovePoint: (point) => must(removePoint({ clipId, ...point })),
      onSwapPoints: (swap) => must(swapPoints({ clipId, ...swap })),
      onPlacePoints: (several) => must(placePoints({ clipId, ...several })),
      onPlaceFollowed: (followed) => must(placeFollowed({ clipId, ...followed })),
      onAddMark: async ({ frameIndex, shape }) => {
        const kept = (await must(addMark({ clipId, frameIndex, shape }))) as { markId: string };
        return kept.markId;
      },
      onRemoveMark: (markId) => must(removeMark({ markId })),
      onOvertaken: () => router.refresh(),
    }),
    [clipId, router],
  );
  return <SwingViewer {...props} {...keeping} />;
}
