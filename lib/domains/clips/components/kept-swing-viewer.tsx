"use client";

import { useMemo } from "react";
import type { ActionState } from "@/lib/core/action-state";
import { addMark, clearEvent, markPointUnseen, placePoint, removeMark, removePoint, setEvent } from "../actions";
import type { Keeping } from "./sending";
import { SwingViewer, type SwingViewerProps } from "./swing-viewer";

/** What an action gave back; what was not kept is thrown with its sentence. */
async function must(sent: Promise<ActionState>): Promise<unknown> {
  const state = await sent;
  if (state.status === "refused") throw new Error(state.message);
  return state.status === "done" ? state.data : undefined;
}

/** The swing view of one clip, with everything that is done in it kept. */
export function KeptSwingViewer(props: Omit<SwingViewerProps, keyof Keeping>) {
  const clipId = props.clip.id;
  const keeping = useMemo<Keeping>(
    () => ({
      onSetEvent: (event, frameIndex, onClipId = clipId) => must(setEvent({ clipId: onClipId, event, frameIndex })),
      onClearEvent: (event) => must(clearEvent({ clipId, event })),
      onPlacePoint: (point) => must(placePoint({ clipId, ...point })),
      onPointUnseen: (point) => must(markPointUnseen({ clipId, ...point })),
      onRemovePoint: (point) => must(removePoint({ clipId, ...point })),
      onAddMark: async ({ frameIndex, shape }) => {
        const kept = (await must(addMark({ clipId, frameIndex, shape }))) as { markId: string };
        return kept.markId;
      },
      onRemoveMark: (markId) => must(removeMark({ markId })),
    }),
    [clipId],
  );
  return <SwingViewer {...props} {...keeping} />;
}
