"use client";

import { useRouter } from "next/navigation";
import { useState, type ChangeEvent, type FormEvent } from "react";
import type { z } from "zod";
import type { Id } from "@/lib/core/ids";
import { Button } from "@/lib/ui/button";
import { Choice } from "@/lib/ui/choice";
import { Select } from "@/lib/ui/select";
import { TextArea } from "@/lib/ui/text-input";
import { beginSent } from "../../sent/actions";
import type { beginSentForm } from "../../sent/schema";
import { answersOf } from "../sending/answers";
import { FilmState, isGoing } from "../sending/film-row";
import type { SendingDeps } from "../sending/sending-line";
import { useSendingLine } from "../sending/use-sending-line";
import { sentOptions, sentWords as words } from "./sent-words";

interface SendClipProps {
  readonly userId: Id;
  readonly playerId: Id;
  readonly sides: readonly ("right" | "left")[];
}

const begin: SendingDeps["begin"] = (input) => beginSent(input as unknown as z.input<typeof beginSentForm>);

/** Film or choose one swing, say little about it, and send it to the coach. */
export function SendClip({ userId, playerId, sides }: SendClipProps) {
  const router = useRouter();
  const { films, line } = useSendingLine(userId, playerId, () => router.refresh(), begin);
  const [isMissing, setIsMissing] = useState(false);
  // What has arrived stands in the list of what was sent.
  const shown = films.filter(({ state }) => state !== "sent" && state !== "known");
  const open = films.filter(({ state }) => state === "unowned" || state === "refused");
  const errors = films.find(({ state }) => state === "refused")?.fields ?? {};

  const take = (event: ChangeEvent<HTMLInputElement>) => {
    setIsMissing(false);
    for (const { key } of open) void line.stop(key);
    line.choose([...(event.target.files ?? [])].slice(0, 1));
    event.target.value = "";
  };
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const film = open.at(-1);
    if (!film) return setIsMissing(true);
    void line.give(film.key, playerId, answersOf(event.currentTarget));
  };

  return (
    <form className="form" onSubmit={submit} noValidate>
      <div className="field">
        <label htmlFor="choose-video">{words.chooseOrFilm.choose}</label>
        <input id="choose-video" type="file" accept="video/*,.mp4,.mov" onChange={take} aria-describedby="choose-hint" />
        <p className="hint" id="choose-hint">
          {words.hint}
        </p>
      </div>
      <div className="field only-phone">
        <label htmlFor="film-video">{words.chooseOrFilm.film}</label>
        <input id="film-video" type="file" accept="video/*" capture="environment" onChange={take} />
      </div>
      {shown.length > 0 ? (
        <ul className="rows">
          {shown.map((film) => (
            <li key={film.key}>
              <div>
                <b>{words.film(film.key)}</b>
                <FilmState film={film} />
              </div>
              {film.state === "stopped" ? null : (
                <Button kind="plain" onClick={() => void line.stop(film.key)} aria-label={`${words.takeBack}: ${words.film(film.key)}`}>
                  {words.takeBack}
                </Button>
              )}
            </li>
          ))}
        </ul>
      ) : null}
      {films.some((film) => isGoing(film) && film.isKept) ? <p className="note">{words.keptHere}</p> : null}
      {sides.length > 1 ? (
        <Choice name="side" label={words.side} options={sides.map((value) => ({ value, label: words.sides[value] }))} defaultValue={sides[0]} error={errors.side} />
      ) : (
        <input type="hidden" name="side" value={sides[0]} />
      )}
      <Choice name="view" label={words.view} options={sentOptions.views} defaultValue="side" error={errors.view} />
      <Select name="task" label={words.task} options={sentOptions.tasks} defaultValue="tee" error={errors.task} />
      <Choice name="filmedRate" label={words.rate} options={sentOptions.rates} defaultValue="as-file" error={errors.filmedRate} />
      <TextArea name="words" label={words.ask} mayBeEmpty rows={2} maxLength={300} error={errors.words} />
      <div role="alert">{isMissing ? <p className="trouble">{words.nothingChosen}</p> : null}</div>
      <Button kind="main" type="submit" isBig isWide>
        {words.send}
      </Button>
    </form>
  );
}
