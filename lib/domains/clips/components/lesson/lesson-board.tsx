"use client";

import { useRouter } from "next/navigation";
import { useRef, useState, type ChangeEvent } from "react";
import type { Id } from "@/lib/core/ids";
import { Button } from "@/lib/ui/button";
import { Entry } from "@/lib/ui/entry";
import type { LessonPlayer, OwnUpload } from "../../lesson/schema";
import { nextFilm, stepFilm, type BoardCommand } from "../../lesson/rules";
import type { UploadFacts } from "../../schema";
import type { BattingSide } from "../../view";
import { addWords } from "../add-words";
import { CameraFactFields, SwingFactFields } from "../fact-fields";
import { answersOf } from "../sending/answers";
import { FilmRow, isGoing } from "../sending/film-row";
import { useSendingLine } from "../sending/use-sending-line";
import { UploadList } from "../upload-list";
import { BoardRow } from "./board-row";
import { FilmPreview } from "./film-preview";
import { lessonWords as words } from "./lesson-words";
import { Tiles, tilesOf } from "./tiles";
import { useBoardKeys } from "./use-board-keys";
import { useHere } from "./use-here";
import { WhoIsHere } from "./who-is-here";

interface LessonBoardProps {
  readonly userId: Id;
  readonly players: readonly LessonPlayer[];
  /** The answers of the person's last clip. */
  readonly last: UploadFacts | null;
  readonly today: string;
  readonly uploads: readonly OwnUpload[];
}

const ANY_SIDE: readonly BattingSide[] = ["right"];

/** A group lesson: many clips in a row, one key or tap each to say whose it is, the next one by itself. */
export function LessonBoard({ userId, players, last, today, uploads }: LessonBoardProps) {
  const router = useRouter();
  const { films, line } = useSendingLine(userId, null, () => router.refresh());
  const [kept, setHere] = useHere(userId);
  const hereIds = kept.split(" ").filter((id) => players.some((it) => it.id === id && it.mayBeFilmed));
  const tiles = tilesOf(players, hereIds);
  const [asked, setAsked] = useState<number | null>(null);
  const [trail, setTrail] = useState<readonly number[]>([]);
  const answersRef = useRef<HTMLFormElement>(null);

  const shown = films.filter(({ state }) => state !== "stopped");
  const board = shown.map(({ key, playerId }) => ({ key, isGiven: playerId !== null }));
  const inHand = shown.find(({ key }) => key === asked) ?? shown.find(({ key }) => key === nextFilm(board, null)) ?? null;
  const nameOf = (id: Id | null) => players.find((it) => it.id === id)?.name ?? null;

  const give = (tile: number) => {
    const to = tiles[tile];
    const form = answersRef.current;
    if (!to || !inHand || !form) return;
    void line.give(inHand.key, to.playerId, { ...answersOf(form), side: to.side });
    setTrail((before) => [...before.filter((it) => it !== inHand.key), inHand.key]);
    setAsked(nextFilm(board.map((it) => (it.key === inHand.key ? { ...it, isGiven: true } : it)), inHand.key));
  };
  const undo = () => {
    const back = trail.at(-1);
    if (back === undefined) return;
    setTrail(trail.slice(0, -1));
    setAsked(back);
  };
  const onCommand = (command: BoardCommand) => {
    if (command.kind === "give") give(command.tile);
    else if (command.kind === "undo") undo();
    else setAsked(stepFilm(board, inHand?.key ?? null, command.by));
  };
  useBoardKeys(shown.length > 0, tiles.length, onCommand);
  const take = (event: ChangeEvent<HTMLInputElement>) => {
    line.choose([...(event.target.files ?? [])]);
    event.target.value = "";
    event.target.blur();
  };

  const number = inHand ? shown.indexOf(inHand) + 1 : 0;
  const refused = shown.filter(({ state, sentence }) => state === "refused" || sentence !== null);
  const known = uploads.filter((it) => it.state !== "receiving" || !films.some(({ uploadId }) => uploadId === it.id));
  return (
    <>
      <Entry side={words.here} isHeading isStrong>
        <WhoIsHere players={players} hereIds={hereIds} onHere={setHere} />
      </Entry>
      <Entry side={words.answers} isHeading>
        <form ref={answersRef} className="form" onSubmit={(event) => event.preventDefault()}>
          <p className="hint">{words.answersHint}</p>
          <details className="fold">
            <summary>{words.answersShow}</summary>
            <div className="form">
              <CameraFactFields begin={last} errors={{}} />
              <SwingFactFields sides={ANY_SIDE} side={null} begin={last} today={today} errors={{}} />
            </div>
          </details>
        </form>
      </Entry>
      <Entry side={words.clips} isHeading>
        <div className="form">
          <div className="field">
            <label htmlFor="lesson-videos">{words.choose}</label>
            <input id="lesson-videos" type="file" accept="video/*,.mp4,.mov" multiple onChange={take} aria-describedby="lesson-videos-hint" />
            <p className="hint" id="lesson-videos-hint">{words.chooseHint}</p>
          </div>
          <div className="field only-phone">
            <label htmlFor="lesson-film">{words.film}</label>
            <input id="lesson-film" type="file" accept="video/*" capture="environment" onChange={take} />
          </div>
        </div>
        {shown.length > 0 ? (
          <section className="lesson-board" aria-label={words.board} data-unsent={shown.filter(({ state }) => state !== "sent" && state !== "known").length}>
            {inHand ? (
              <>
                <div className="film">
                  <FilmPreview key={inHand.key} film={inHand} label={words.clip(number, shown.length)} />
                </div>
                <div className="owners">
                  <h3>
                    {words.clip(number, shown.length)}: {words.whose}
                  </h3>
                  <p className="note" role="status">{inHand.playerId ? words.isOf(nameOf(inHand.playerId) ?? "") : ""}</p>
                  {tiles.length > 0 ? <Tiles tiles={tiles} ownerId={inHand.playerId} onGive={give} /> : <p>{words.nobodyTicked}</p>}
                  <div className="bar-line">
                    <Button aria-keyshortcuts="ArrowLeft" onClick={() => onCommand({ kind: "step", by: -1 })}>{words.before}</Button>
                    <Button aria-keyshortcuts="ArrowRight" onClick={() => onCommand({ kind: "step", by: 1 })}>{words.next}</Button>
                    <Button aria-keyshortcuts="Backspace" disabled={trail.length === 0} onClick={undo}>{words.undo}</Button>
                    <Button kind="plain" onClick={() => void line.stop(inHand.key)}>{words.leaveOut}</Button>
                  </div>
                  <p className="note only-wide">{words.keys}</p>
                </div>
              </>
            ) : (
              <div className="owners" role="status">
                <h3>{words.allGiven(shown.length)}</h3>
                <p>{films.some((film) => isGoing(film) && !film.isKept) ? addWords.notKeptHere : words.allGivenThen}</p>
                <div className="bar-line">
                  <Button disabled={trail.length === 0} onClick={undo}>{words.undo}</Button>
                </div>
              </div>
            )}
            <BoardRow films={shown} inHandKey={inHand?.key ?? null} nameOf={nameOf} onShow={setAsked} />
          </section>
        ) : null}
        {refused.length > 0 ? (
          <ul className="rows" aria-label={words.troubles}>
            {refused.map((film) => (
              <FilmRow key={film.key} film={film} onStop={() => void line.stop(film.key)} />
            ))}
          </ul>
        ) : null}
      </Entry>
      {known.length > 0 ? (
        <Entry side={words.sent} isHeading>
          <UploadList uploads={known} />
        </Entry>
      ) : null}
    </>
  );
}
