"use client";

import { useRouter } from "next/navigation";
import { useEffect, useState } from "react";
import type { ActionState } from "@/lib/core/action-state";
import { boxOf, caughtUp, isOvertaken, isSameText, takenOver, type Box, type Parts } from "../together/rules";

/** The boxes of a text that others may write at the same time. */
export interface Boxes<Part extends string> {
  readonly boxes: Readonly<Record<Part, Box>>;
  /** What the sender saw, to be sent along. */
  readonly was: string;
  type(part: Part, text: string): void;
  /** To be called when the form is sent. */
  markSent(): void;
  /** Parts where another's words are kept and this one's stand in the box. */
  readonly overtaken: readonly Part[];
  keepMine(part: Part): void;
  takeTheirs(part: Part): void;
}

/** Fetches what is kept now when a sending was overtaken. */
export function useFreshWhenOvertaken(state: ActionState): void {
  const router = useRouter();
  useEffect(() => {
    if (state.status === "refused" && state.isOvertaken) router.refresh();
  }, [state, router]);
}

/** Holds what is typed against what is kept. When a sending was overtaken, what is kept now is fetched and shown. */
export function useBoxes<Part extends string>(kept: Parts<Part>, state: ActionState): Boxes<Part> {
  const names = Object.keys(kept) as Part[];
  const typed = state.status === "refused" ? state.values : {};
  const each = (make: (part: Part) => Box) => Object.fromEntries(names.map((part) => [part, make(part)])) as Record<Part, Box>;
  const [boxes, setBoxes] = useState(() => each((part) => boxOf(kept[part], typed[part])));
  const [seen, setSeen] = useState(kept);
  if (names.some((part) => !isSameText(seen[part], kept[part]))) {
    setSeen(kept);
    setBoxes(each((part) => caughtUp(boxes[part], kept[part])));
  }
  useFreshWhenOvertaken(state);
  const set = (part: Part, change: (box: Box) => Box) => setBoxes((now) => ({ ...now, [part]: change(now[part]) }));
  return {
    boxes,
    was: JSON.stringify(Object.fromEntries(names.map((part) => [part, boxes[part].base]))),
    type: (part, text) => set(part, (box) => ({ ...box, text })),
    markSent: () => setBoxes((now) => Object.fromEntries(names.map((part) => [part, { ...now[part], sent: now[part].text }])) as Record<Part, Box>),
    overtaken: names.filter((part) => isOvertaken(boxes[part], kept[part])),
    keepMine: (part) => set(part, (box) => ({ ...box, base: kept[part] })),
    takeTheirs: (part) => set(part, (box) => takenOver(box, kept[part])),
  };
}
