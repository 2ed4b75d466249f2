"use client";

import { useRouter } from "next/navigation";
import { useEffect, useReducer, useState, type KeyboardEvent } from "react";
import { fileSecondsOf } from "@/lib/core/frame-times";
import { Button } from "@/lib/ui/button";
import { Entry } from "@/lib/ui/entry";
import { Problem } from "@/lib/ui/problem";
import { cutClip, lookForSwings } from "../../cutting/actions";
import { cutAround, cutterCommandOf } from "../../cutting/rules";
import type { FilmToCut } from "../../cutting/schema";
import type { LessonPlayer } from "../../lesson/schema";
import { tilesOf } from "../lesson/tiles";
import { outcomeOf } from "../outcome-of";
import { useFrameSource } from "../use-frame-source";
import { CutList } from "./cut-list";
import { cutterReducer, startCutter } from "./cutter-state";
import { cutterWords as words } from "./cutter-words";
import { FilmMap } from "./film-map";
import { FilmPicture } from "./film-picture";

const ASK_AGAIN_MS = 2500;
const TYPED_INTO = "select, textarea, input:not([type=range])";

/** Cuts swings out of a film: what was heard and seen is offered; a coach moves, drops and adds, says whose each is, and keeps them. */
export function Cutter({ film, players }: { readonly film: FilmToCut; readonly players: readonly LessonPlayer[] }) {
  const router = useRouter();
  const status = useFrameSource(film);
  const [state, dispatch] = useReducer(cutterReducer, film.frameTimes.ticks.length, startCutter);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const { frameTimes: times, clipId, found, offered, isWorkedOn } = film;
  // Its own player first; another one only when nothing stays of the whole.
  const others = players.filter((it) => it.id !== film.playerId && it.mayBeFilmed && !isWorkedOn);
  const tiles = tilesOf(players, [film.playerId, ...others.map(({ id }) => id)]);
  const own = { playerId: film.playerId, side: film.facts.side };
  const last = times.ticks.length - 1;
  const { frame, cuts, inHand } = state;

  const [isOffered, setIsOffered] = useState(false);
  if (found && !isOffered) {
    setIsOffered(true);
    dispatch({ kind: "offer", cuts: offered, answers: own });
  }
  const isWaiting = found === null;
  useEffect(() => {
    if (!isWaiting) return;
    void lookForSwings({ clipId });
    const timer = setInterval(() => router.refresh(), ASK_AGAIN_MS);
    return () => clearInterval(timer);
  }, [isWaiting, clipId, router]);

  const add = () => dispatch({ kind: "add", cut: cutAround(frame, times, film.realSecondsPerFileSecond), answers: own });
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.target instanceof Element && event.target.matches(TYPED_INTO)) return;
    if (event.target instanceof HTMLInputElement && event.key.startsWith("Arrow")) return;
    const command = (event.ctrlKey || event.metaKey) && event.key === "z" ? ({ kind: "undo" } as const) : cutterCommandOf(event, tiles.length);
    if (!command) return;
    event.preventDefault();
    if (command.kind === "add") add();
    else if (command.kind === "give") {
      const tile = tiles[command.tile];
      if (tile && inHand !== null) dispatch({ kind: "answer", key: inHand, answers: { playerId: tile.playerId, side: tile.side } });
    } else dispatch(command);
  };
  const keep = async () => {
    if (cuts.length === 0) return setTrouble(words.nothing);
    setIsBusy(true);
    const input = cuts.map(({ firstFrame, lastFrame, contactFrame, playerId, side, task, pitchHeight, pitchSide }) => ({ firstFrame, lastFrame, contactFrame, playerId, side, task, pitchHeight, pitchSide }));
    const outcome = await outcomeOf(() => cutClip({ clipId, cuts: input }));
    setIsBusy(false);
    setTrouble(outcome === "lost" ? words.lost : outcome !== "left" && outcome.status === "refused" ? outcome.message : null);
  };

  const seconds = (fileSecondsOf(times, frame) - fileSecondsOf(times, 0)).toFixed(2);
  const where = words.frame(frame + 1, last + 1, seconds);
  return (
    <div className="cutter" onKeyDown={onKeyDown}>
      <Entry side={words.film} isHeading isStrong>
        {status.kind === "loading" ? <p role="status">{words.opening(Math.floor(100 * status.part))}</p> : null}
        {status.kind === "failed" ? <Problem happened={status.sentence} action={<Button onClick={status.again}>Try again</Button>} isNews /> : null}
        {status.kind === "ready" ? <FilmPicture source={status.source} frame={frame} widthPx={film.widthPx} heightPx={film.heightPx} label={where} /> : null}
        <p className="quiet small" role="status">{where}</p>
        <FilmMap times={times} found={found} cuts={cuts} inHand={inHand} frame={frame} onShow={(to) => dispatch({ kind: "show", frame: to })} />
        <div className="field">
          <label htmlFor="cutter-frame">{words.where}</label>
          <input id="cutter-frame" type="range" min={0} max={last} value={frame} aria-valuetext={where} onChange={(event) => dispatch({ kind: "show", frame: Number(event.target.value) })} />
        </div>
        <div className="bar-line">
          <Button aria-keyshortcuts="ArrowLeft" onClick={() => dispatch({ kind: "step", by: -1 })}>{words.back}</Button>
          <Button aria-keyshortcuts="ArrowRight" onClick={() => dispatch({ kind: "step", by: 1 })}>{words.on}</Button>
          <Button aria-keyshortcuts="A" onClick={add}>{words.add}</Button>
        </div>
        <div className="bar-line">
          <Button aria-keyshortcuts="[" disabled={inHand === null} onClick={() => dispatch({ kind: "end", end: "first" })}>{words.first}</Button>
          <Button aria-keyshortcuts="]" disabled={inHand === null} onClick={() => dispatch({ kind: "end", end: "last" })}>{words.last}</Button>
          <Button aria-keyshortcuts="Delete" disabled={inHand === null} onClick={() => dispatch({ kind: "drop" })}>{words.drop}</Button>
          <Button kind="plain" disabled={state.undo.length === 0} onClick={() => dispatch({ kind: "undo" })}>{words.undo}</Button>
        </div>
        <p className="note only-wide">{words.keys}</p>
      </Entry>
      <Entry side={words.cuts} isHeading>
        <p role="status">{found === null ? words.looking : offered.length === 0 ? words.noneFound : words.offered(offered.length)}</p>
        <CutList
          cuts={cuts} inHand={inHand} times={times} tiles={tiles} facts={film.facts} onTake={(key) => dispatch({ kind: "take", key })}
          onAnswer={(key, answers) => dispatch({ kind: "answer", key, answers })}
        />
        <p className="quiet">{isWorkedOn ? words.wholeStays : words.wholeGoes}</p>
        <div role="alert">{trouble || state.trouble ? <p className="trouble">{trouble ?? words.tooShort}</p> : null}</div>
        <Button kind="main" disabled={isBusy} onClick={() => void keep()}>{words.keep(Math.max(1, cuts.length))}</Button>
      </Entry>
    </div>
  );
}
