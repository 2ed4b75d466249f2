"use client";
import { useEffect, useId, useRef, useState, type CSSProperties, type KeyboardEvent, type ReactNode } from "react";
import { wholeLook, zoomAbout, type Look, type Size } from "@/lib/domains/clips/rules";
import { Button } from "@/lib/ui/button";
import { useSay } from "@/lib/ui/words/use-say";
import { beginnings, cueAt, cuesShown, sayMinutes } from "../../rules";
import type { ChapterView, WalkthroughOnPage } from "../../view";
import { TalkStage } from "../talk-stage";
import { replayKeys, sightWords } from "../words";
import { marksOf, overOfStand } from "./state-of";
import { REPLAY_RATES, useReplay } from "./use-replay";

interface ReplayProps {
  readonly view: WalkthroughOnPage;
  /** Where the replay begins, in milliseconds. */
  readonly startMs?: number;
  /** Stands under the chapters. */
  readonly children?: ReactNode;
}

const NEAR_MS = 5000;

/** A walkthrough told again over the real frames: listen, hold, step oneself, go on. */
export function Replay({ view, startMs = 0, children }: ReplayProps) {
  const say = useSay();
  const [voice, setVoice] = useState<HTMLAudioElement | null>(null);
  const replay = useReplay(view, voice);
  const { chapters, shown, take, state, hand, isRunning, totalMs } = replay;
  const [hasCaptions, setHasCaptions] = useState(true);
  const sliderId = useId();
  const cues = cuesShown(chapters, Object.fromEntries(view.takes.map(({ id, cues: said }) => [id, said])));
  const begins = beginnings(chapters);
  const ms = shown?.ms ?? 0;
  const index = begins.findLastIndex((at) => at <= ms + 1);
  const said = cueAt(cues, ms)?.text ?? null;
  const { seek } = replay;
  const begunRef = useRef(false);
  useEffect(() => {
    if (!voice || begunRef.current) return;
    begunRef.current = true;
    if (startMs > 0) seek(startMs);
  }, [voice, startMs, seek]);
  if (!take || !state || !shown) return <p className="note">{say("This walkthrough cannot be shown here. It was made by a newer version of this program; nothing of it is lost.")}</p>;

  const playOrHold = () => (isRunning ? replay.hold() : replay.play());
  const step = (by: number) => replay.act({ kind: "step", by });
  const chapter = (by: number) => seek(begins[Math.max(0, Math.min(begins.length - 1, index + by))] ?? 0);
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    const target = event.target instanceof HTMLElement ? event.target : null;
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || target?.closest("input:not([type=range]), textarea, select")) return;
    if (target?.closest("button, a, summary") && (event.key === " " || event.key === "Enter")) return;
    const far = event.shiftKey ? 10 : 1;
    const acts: Readonly<Record<string, () => void>> = {
      " ": playOrHold, ArrowLeft: () => step(-far), ArrowRight: () => step(far), ArrowUp: () => seek(ms + NEAR_MS), ArrowDown: () => seek(ms - NEAR_MS),
      "[": () => chapter(ms - (begins[index] ?? 0) > 1500 ? 0 : -1), "]": () => chapter(1), c: () => setHasCaptions(!hasCaptions), C: () => setHasCaptions(!hasCaptions),
      g: replay.play, G: replay.play, Home: () => seek(0), End: () => seek(totalMs),
    };
    // The slider moves by its own keys.
    if (target?.matches("input[type=range]") && event.key !== " ") return;
    const act = Object.hasOwn(acts, event.key) ? acts[event.key] : undefined;
    if (!act) return;
    event.preventDefault();
    act();
  };
  /** Comes closer, or back, in all pictures: the talk runs on. */
  const lookAll = (change: (look: Look, picture: Size) => Look) => {
    for (const { clip } of take.clips) {
      const place = state.places[clip.id];
      if (place) replay.act({ kind: "look", clipId: clip.id, look: change(place.look, { width: clip.widthPx, height: clip.heightPx }) });
    }
  };
  const ratio = Math.max(...take.clips.map(({ clip }) => clip.widthPx / clip.heightPx));
  return (
    <div className="bench beside talk" style={{ "--aspect": ratio, "--across": take.clips.length > 1 ? 2 : 1 } as CSSProperties} onKeyDown={onKeyDown} data-ms={Math.round(ms)} data-by-hand={hand !== null}>
      <audio ref={setVoice} preload="auto" aria-hidden="true" />
      <div className="at-hand">
        <TalkStage
          clips={take.clips} lined={take.lined} state={state} dispatch={replay.act} marks={marksOf(take.list, shown.stand)} over={overOfStand(take.list, shown.stand)} opening={view.opening} travel={1} areThereRef={replay.arePicturesThereRef}
          together={hand ? (state.isLocked ? take.lined.filter((it) => !it.notLined).map(({ id }) => id) : []) : take.lined.map(({ id }) => id)}
        >
          {cues.length > 0 && hasCaptions ? <p className="said" aria-live="off" lang={say.asWritten}>{said ?? " "}</p> : null}
          {replay.isBlocked ? <p className="note" role="alert">{say("This browser lets nothing be heard before you press Play. Please press it once more.")}</p> : null}
          <div className="talk-line">
            <label className="hush" htmlFor={sliderId}>{say("Where the talk stands")}</label>
            <input
              id={sliderId} type="range" min={0} max={Math.max(1, Math.round(totalMs))} step={100} value={Math.round(ms)} aria-valuetext={say("{now} of {whole}", { now: sayMinutes(ms), whole: sayMinutes(totalMs) })}
              onChange={(event) => seek(Number(event.target.value))}
            />
            <span className="note">{say("{now} of {whole}", { now: sayMinutes(ms), whole: sayMinutes(totalMs) })}</span>
          </div>
          <div className="step">
            <Button kind="main" onClick={playOrHold} aria-keyshortcuts="Space">{isRunning ? say("Hold") : hand ? say("Go on") : say("Play")}</Button>
            <Button onClick={() => step(-1)} aria-keyshortcuts="ArrowLeft">{say("‹ One frame back")}</Button>
            <Button onClick={() => step(1)} aria-keyshortcuts="ArrowRight">{say("One frame on ›")}</Button>
            <Button onClick={() => seek(ms - NEAR_MS)} aria-keyshortcuts="ArrowDown">{say("Back 5 s")}</Button>
            <Button onClick={() => lookAll((look, picture) => zoomAbout(look, 1.5, look.centre, picture, picture))}>{say("Closer")}</Button>
            <Button onClick={() => lookAll((_look, picture) => wholeLook(picture))}>{say("Whole picture")}</Button>
            <fieldset className="pick">
              <legend className="hush">{say("How fast the talk is heard")}</legend>
              {REPLAY_RATES.map((rate) => (
                <label key={rate}>
                  <input type="radio" name={`${sliderId}-rate`} checked={replay.rate === rate} onChange={() => replay.setRate(rate)} /> {rate}×
                </label>
              ))}
            </fieldset>
            {cues.length > 0 ? (
              <label className="tick">
                <input type="checkbox" checked={hasCaptions} onChange={(event) => setHasCaptions(event.target.checked)} aria-keyshortcuts="C" /> {say("Captions")}
              </label>
            ) : null}
          </div>
          {hand ? <p className="note" role="status">{say("The talk holds at {time}; the pictures are yours. Press “Go on” to hear on from there.", { time: sayMinutes(ms) })}</p> : null}
        </TalkStage>
      </div>
      <aside className="aside" aria-label={say("Chapters")}>
        <h2>{say("Chapters")}</h2>
        <ol className="rows talk-chapters">
          {chapters.map((it, i) => (
            <ChapterLine key={it.id} chapter={it} beginsMs={begins[i] ?? 0} isNow={i === index} onSeek={seek} />
          ))}
        </ol>
        <details className="fold">
          <summary>{say("Keys")}</summary>
          <dl className="talk-keys">
            {replayKeys.map(([key, words]) => (
              <div key={key}>
                <dt>{key === "Space" ? say("Space") : key}</dt>
                <dd>{say(words)}</dd>
              </div>
            ))}
          </dl>
        </details>
        {children}
      </aside>
    </div>
  );
}

function ChapterLine({ chapter, beginsMs, isNow, onSeek }: { readonly chapter: ChapterView; readonly beginsMs: number; readonly isNow: boolean; readonly onSeek: (ms: number) => void }) {
  const say = useSay();
  const { title, swingId, about, sight } = chapter;
  return (
    <li>
      <button type="button" className="btn plain" aria-current={isNow ? "step" : undefined} onClick={() => onSeek(beginsMs)}>
        {sayMinutes(beginsMs)} <span lang={say.langOf(title)}>{say.told(title)}</span>
      </button>
      {swingId && about ? (
        <p className="note">
          {about.kind === "fault" ? (sight ? `Called: ${sightWords[sight]}. ` : "Not called on this swing yet. ") : null}
          {about.kind === "drill" ? <a href={`/library/drills/${about.id}`}>The drill</a> : <a href={about.kind === "fault" ? `/library/faults/${about.id}` : `/swings/${swingId}/sheet`}>{about.kind === "fault" ? "What it is" : "Its reading on the sheet"}</a>}
          {about.kind === "fault" ? <> · <a href={`/swings/${swingId}`}>The swing</a></> : null}
        </p>
      ) : null}
    </li>
  );
}
