"use client";

import { useRouter } from "next/navigation";
import { useState, type ChangeEvent, type FormEvent } from "react";
import type { Id } from "@/lib/core/ids";
import { Button } from "@/lib/ui/button";
import { Entry } from "@/lib/ui/entry";
import { VIEWS, type SwingToJoin, type UploadFacts, type UploadRow } from "../schema";
import type { BattingSide, CameraView } from "../view";
import { addWords as words } from "./add-words";
import { CameraFactFields, SwingFactFields, type CameraAnswers } from "./fact-fields";
import { JoinSwing } from "./join-swing";
import { answersOf } from "./sending/answers";
import { FilmRow, isGoing } from "./sending/film-row";
import { useSendingLine } from "./sending/use-sending-line";
import { StandSquare } from "./stand-square";
import { UploadList } from "./upload-list";

interface AddClipsProps {
  readonly userId: Id;
  readonly playerId: Id;
  readonly sides: readonly BattingSide[];
  /** The answers of the player's last clip. */
  readonly last: UploadFacts | null;
  /** The side in hand where the page was opened. */
  readonly side: BattingSide | null;
  readonly today: string;
  /** Swings of the last days that a film may show from another camera. */
  readonly swings: readonly SwingToJoin[];
  /** The swing for which the page was opened. */
  readonly joinSwingId: Id | null;
  /** What was sent before and is not settled, as the house knows it. */
  readonly uploads: readonly UploadRow[];
}

/** Film or choose videos, answer what no file says, and send them. */
export function AddClips({ userId, playerId, sides, last, side, today, swings, joinSwingId, uploads }: AddClipsProps) {
  const router = useRouter();
  const { films, line } = useSendingLine(userId, playerId, () => router.refresh());
  const [problem, setProblem] = useState<string | null>(null);
  const [joinedId, setJoinedId] = useState<string | null>(joinSwingId);
  const joined = swings.find((it) => it.id === joinedId) ?? null;
  const camera = joined ? otherCamera(last, joined) : last;
  const [answered, setAnswered] = useState<{ readonly for: string | null; readonly view: CameraView } | null>(null);
  const view = answered && answered.for === joinedId ? answered.view : (camera?.view ?? "side");
  // What the house tells of is shown once: here while it is on its way, among the sent ones from then on.
  const chosen = films.filter((film) => !uploads.some((it) => it.id === film.uploadId && it.state !== "receiving"));
  const sent = uploads.filter((it) => it.state !== "receiving" || !chosen.some((film) => film.uploadId === it.id));
  const open = films.filter((it) => it.state === "unowned" || it.state === "refused");
  const errors = films.find((it) => it.state === "refused")?.fields ?? {};

  const take = (event: ChangeEvent<HTMLInputElement>) => {
    setProblem(null);
    line.choose([...(event.target.files ?? [])]);
    event.target.value = "";
  };
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    if (open.length === 0) return setProblem(words.nothingChosen);
    if (joined && open.length > 1) return setProblem(words.join.one);
    const answers = answersOf(event.currentTarget);
    for (const { key } of open) void line.give(key, playerId, answers);
  };

  return (
    <>
      {sent.length > 0 ? (
        <Entry side={words.sent} isHeading isStrong>
          <UploadList uploads={sent} />
        </Entry>
      ) : null}
      <Entry side={words.filmSide} isHeading isStrong={sent.length === 0}>
        <form className="form" onSubmit={submit} noValidate>
          <input type="hidden" name="playerId" value={playerId} />
          <StandSquare view={view} isLastKnown={last === null || last.cameraOffDeg !== null} />
          <div className="field">
            <label htmlFor="choose-videos">{words.choose}</label>
            <input id="choose-videos" type="file" accept="video/*,.mp4,.mov" multiple onChange={take} aria-describedby="choose-hint" />
            <p className="hint" id="choose-hint">
              {words.chooseHint}
            </p>
          </div>
          <div className="field only-phone">
            <label htmlFor="film-video">{words.film}</label>
            <input id="film-video" type="file" accept="video/*" capture="environment" onChange={take} />
          </div>
          {chosen.length > 0 ? (
            <ul className="rows" aria-label={words.chosen(chosen.length)}>
              {chosen.map((film) => (
                <FilmRow key={film.key} film={film} onStop={() => void line.stop(film.key)} />
              ))}
            </ul>
          ) : null}
          {films.some((film) => isGoing(film) && film.isKept) ? <p className="note">{words.keptHere}</p> : null}
          {open.length > 1 ? <p className="quiet">{words.answersFor}</p> : null}
          <JoinSwing swings={swings} joined={joined} view={view} onJoin={setJoinedId} />
          <CameraFactFields begin={camera} errors={errors} onView={(to) => setAnswered({ for: joinedId, view: to })} />
          {joined ? null : <SwingFactFields sides={sides} side={side} begin={last} today={today} errors={errors} />}
          <div role="alert">{problem ? <p className="trouble">{problem}</p> : null}</div>
          <Button kind="main" type="submit">
            {words.send(Math.max(1, open.length))}
          </Button>
        </form>
      </Entry>
    </>
  );
}

const PLAIN_CAMERA = { filmedRate: "as-file", isMirrored: false, hasCameraMoved: false, hasCameraZoomed: false, isStabilised: false, cameraOffDeg: null } as const;

/** Where the form of another camera begins: at a view that the swing does not have yet, and with nothing taken over from the first camera. */
function otherCamera(last: UploadFacts | null, { views }: SwingToJoin): CameraAnswers {
  const view = VIEWS.find((it) => !views.includes(it)) ?? "side";
  return { ...PLAIN_CAMERA, filmedRate: last?.filmedRate ?? "as-file", view };
}
