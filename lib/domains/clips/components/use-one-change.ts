"use client";
import { useState, useTransition } from "react";
import type { ActionState } from "@/lib/core/action-state";

/** One change that was asked for: how it went, and how to take it back. */
export interface OneChange {
  readonly isBusy: boolean;
  /** Why nothing was kept; null when all went well. */
  readonly trouble: string | null;
  /** Takes the last change back; null when there is none to take back. */
  readonly undo: (() => void) | null;
  /** Sends a change; `back` sends what stood before. */
  readonly send: (change: () => Promise<ActionState>, back: () => Promise<ActionState>) => void;
}

const LOST = "The line was lost. Nothing was changed. Please try again.";

/** Sends one change at a time, with undo. */
export function useOneChange(): OneChange {
  const [isBusy, start] = useTransition();
  const [trouble, setTrouble] = useState<string | null>(null);
  const [back, setBack] = useState<(() => Promise<ActionState>) | null>(null);
  const perform = (change: () => Promise<ActionState>, next: (() => Promise<ActionState>) | null) =>
    start(async () => {
      const state = await change().catch((): ActionState => ({ status: "refused", message: LOST, fields: {}, values: {} }));
      setTrouble(state.status === "refused" ? state.message : null);
      if (state.status !== "refused") setBack(() => next);
    });
  return { isBusy, trouble, undo: back ? () => perform(back, null) : null, send: perform };
}
