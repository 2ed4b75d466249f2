"use client";

import Link from "next/link";
import { useState } from "react";
import type { ActionState } from "@/lib/core/action-state";
import { Button } from "@/lib/ui/button";
import { Cut } from "@/lib/ui/cut";
import { Entry } from "@/lib/ui/entry";
import { joinSwings, partClip } from "../../owner/actions";
import type { SwingToSort } from "../../owner/schema";
import { factOptions } from "../add-words";
import { outcomeOf } from "../outcome-of";
import { startSentence, viewNames } from "../words";
import { ownerWords as words } from "./owner-words";

/** A swing's clips, each to be parted or cut, and the swings of the day that it may be one with. */
export function SortClips({ sort }: { readonly sort: SwingToSort }) {
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const { swingId, clips, others, isModel, isShown } = sort;
  const send = async (act: () => Promise<ActionState>) => {
    setIsBusy(true);
    const outcome = await outcomeOf(act);
    setIsBusy(false);
    setTrouble(outcome === "lost" ? words.trouble : outcome !== "left" && outcome.status === "refused" ? outcome.message : null);
  };
  return (
    <>
      <Entry side={words.clips} isHeading>
        <ul className="models">
          {clips.map((clip) => (
            <li key={clip.id}>
              <Cut src={clip.posterUrl} alt="" />
              <div className="told">
                <p>
                  <b>{startSentence(viewNames[clip.view])}</b>, {words.frames(clip.frameCount, clip.isStretch)}{clip.placedPointCount > 0 ? `, ${words.points(clip.placedPointCount)}` : null}
                </p>
                <div className="bar-line">
                  {clips.length > 1 && !isModel ? (
                    <Button disabled={isBusy} aria-label={words.partOf(viewNames[clip.view])} onClick={() => void send(() => partClip({ swingId, clipId: clip.id }))}>{words.part}</Button>
                  ) : null}
                  {isShown && !isModel && !clip.isStretch ? <Link className="btn" href={`/swings/${swingId}/cut?clip=${clip.id}`} aria-label={words.severalOf(viewNames[clip.view])}>{words.several}</Link> : null}
                </div>
              </div>
            </li>
          ))}
        </ul>
      </Entry>
      <Entry side={words.joinSide} isHeading>
        {isModel ? <p>{words.isModel}</p> : (
          <>
            <p>{words.join}</p>
            {others.length === 0 ? <p className="quiet">{words.alone}</p> : <p className="hint">{words.joinHint}</p>}
            <ul className="models">
              {others.map((it) => (
                <li key={it.id}>
                  <Cut src={it.posterUrl} alt="" />
                  <div className="told">
                    <p>{words.other(taskWords(it.task), it.views.join(", "), it.addedAt)}</p>
                    <Button disabled={isBusy} aria-label={words.joinToOf(it.addedAt)} onClick={() => void send(() => joinSwings({ swingId, intoSwingId: it.id }))}>{words.joinTo}</Button>
                  </div>
                </li>
              ))}
            </ul>
          </>
        )}
        <div role="alert">{trouble ? <p className="trouble">{trouble}</p> : null}</div>
      </Entry>
    </>
  );
}

function taskWords(task: string): string {
  return factOptions.task.find(({ value }) => value === task)?.label ?? task;
}
