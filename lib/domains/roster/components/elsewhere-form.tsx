"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { TextInput } from "@/lib/ui/text-input";
import { useSay } from "@/lib/ui/words/use-say";
import type { PlainSentence } from "@/lib/core/words/say";
import { saySwingsElsewhere } from "../loads/actions";
import { SWING_SOURCES, type SwingSourceId } from "../loads/rules";
import type { SourceView } from "../loads/view";
import { WeekdayRows } from "./weekday-rows";

const ASKED: Readonly<Record<SwingSourceId, { days: PlainSentence; swings: PlainSentence }>> = {
  team: { days: "Days with team practice", swings: "Swings at one team practice" },
  lessons: { days: "Days with a lesson", swings: "Swings in one lesson" },
  games: { days: "Days with a game", swings: "Swings in one game, warm-up too" },
};

/** What a usual week brings outside homework. Caps count all of it. */
export function ElsewhereForm({ playerId, sources }: { playerId: string; sources: readonly SourceView[] }) {
  const say = useSay();
  const [state, send] = useActionState(saySwingsElsewhere, IDLE);
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="playerId" value={playerId} />
      {SWING_SOURCES.map((source) => {
        const said = sources.find((one) => one.source === source);
        return (
          <div key={source} className="flow">
            <WeekdayRows name={`${source}Days[]`} legend={say(ASKED[source].days)} say={say} chosen={said?.weekdays ?? []} />
            <TextInput name={`${source}Swings`} label={say(ASKED[source].swings)} inputMode="numeric" isShort autoComplete="off" {...fieldState(state, `${source}Swings`, String(said?.swingsEach ?? 0))} />
          </div>
        );
      })}
      <p className="hint">{say("None is an answer too: leave the days unticked. A swing at less than 60 % effort counts half.")}</p>
      <FormStatus state={state} />
      <SendButton>{say("Keep the swings elsewhere")}</SendButton>
    </form>
  );
}
