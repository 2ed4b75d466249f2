"use client";

import { useRouter } from "next/navigation";
import { useState, type ChangeEvent, type FormEvent } from "react";
import type { z } from "zod";
import type { Id } from "@/lib/core/ids";
import type { PlainSentence } from "@/lib/core/words/say";
import { Button } from "@/lib/ui/button";
import { Choice } from "@/lib/ui/choice";
import { Select } from "@/lib/ui/select";
import { TextArea } from "@/lib/ui/text-input";
import { useSay } from "@/lib/ui/words/use-say";
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
  const say = useSay();
  const router = useRouter();
  const filmName = (number: number) => say("Video {number}", { number });
  const options = (list: readonly { readonly value: string; readonly label: PlainSentence }[]) => list.map(({ value, label }) => ({ value, label: say(label) }));
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
        <label htmlFor="choose-video">{say("Choose a video")}</label>
        <input id="choose-video" type="file" accept="video/*,.mp4,.mov" onChange={take} aria-describedby="choose-hint" />
        <p className="hint" id="choose-hint">
          {say("A few seconds are enough. Ask a grown-up to hold the phone, well away from the bat.")}
        </p>
      </div>
      <div className="field only-phone">
        <label htmlFor="film-video">{say("Film now")}</label>
        <input id="film-video" type="file" accept="video/*" capture="environment" onChange={take} />
      </div>
      {shown.length > 0 ? (
        <ul className="rows">
          {shown.map((film) => (
            <li key={film.key}>
              <div>
                <b>{filmName(film.key)}</b>
                <FilmState film={film} />
              </div>
              {film.state === "stopped" ? null : (
                <Button kind="plain" onClick={() => void line.stop(film.key)} aria-label={`${say("Take back")}: ${filmName(film.key)}`}>
                  {say("Take back")}
                </Button>
              )}
            </li>
          ))}
        </ul>
      ) : null}
      {films.some((film) => isGoing(film) && film.isKept) ? <p className="note">{say("If this page is closed, it goes on when you are back here.")}</p> : null}
      {sides.length > 1 ? (
        <Choice name="side" label={say("From which side do you hit?")} options={sides.map((value) => ({ value, label: say(words.sides[value]) }))} defaultValue={sides[0]} error={errors.side} />
      ) : (
        <input type="hidden" name="side" value={sides[0]} />
      )}
      <Choice name="view" label={say("Filmed from where?")} options={options(sentOptions.views)} defaultValue="side" error={errors.view} />
      <Select name="task" label={say("What did you hit?")} options={options(sentOptions.tasks)} defaultValue="tee" error={errors.task} />
      <Choice name="filmedRate" label={say("Which speed?")} options={options(sentOptions.rates)} defaultValue="as-file" error={errors.filmedRate} />
      <TextArea name="words" label={say("What shall your coach look at?")} mayBeEmpty rows={2} maxLength={300} error={errors.words} />
      <div role="alert">{isMissing ? <p className="trouble">{say("Choose a video first, or film one.")}</p> : null}</div>
      <Button kind="main" type="submit" isBig isWide>
        {say("Send it")}
      </Button>
    </form>
  );
}
