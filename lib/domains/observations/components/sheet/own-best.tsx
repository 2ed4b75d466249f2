"use client";

import { useState, useTransition } from "react";
import type { ActionState } from "@/lib/core/action-state";
import { Button } from "@/lib/ui/button";
import { State } from "@/lib/ui/state";
import { Toast } from "@/lib/ui/toast";
import { keepOwnBest, takeBackOwnBest } from "../../sheet/actions";
import type { SheetView } from "../../sheet/view";
import { sheetWords as words } from "./sheet-words";

interface OwnBestProps {
  readonly sheet: Pick<SheetView, "playerId" | "clipId" | "ownBest">;
}

interface Said {
  readonly message: string;
  /** What Undo takes back; null when there is nothing to undo. */
  readonly ownBestId: string | null;
}

/** Keeps this swing as the player's own best for its side and view, or takes it back; both say what became of it. */
export function OwnBest({ sheet: { playerId, clipId, ownBest } }: OwnBestProps) {
  const [said, setSaid] = useState<Said | null>(null);
  const [isBusy, start] = useTransition();
  const tell = (state: ActionState) => {
    const kept = state.status === "done" ? (state.data as { ownBestId?: string } | undefined)?.ownBestId : undefined;
    setSaid(state.status === "idle" ? null : { message: state.message ?? words.done, ownBestId: kept ?? null });
  };
  const keep = () => start(async () => tell(await keepOwnBest({ playerId, clipId })));
  const takeBack = (ownBestId: string) => start(async () => tell(await takeBackOwnBest({ playerId, ownBestId })));
  return (
    <>
      {ownBest?.isThis ? (
        <>
          <State is="kept">{words.isOwnBest}</State>
          <Button disabled={isBusy} onClick={() => takeBack(ownBest.id)}>
            {words.takeBack}
          </Button>
        </>
      ) : (
        <Button disabled={isBusy} onClick={keep}>
          {words.keepOwnBest}
        </Button>
      )}
      <Toast message={said?.message ?? null} onClose={() => setSaid(null)} onUndo={said?.ownBestId ? () => takeBack(said.ownBestId ?? "") : undefined} />
    </>
  );
}
