"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { CheckRow } from "@/lib/ui/check-row";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { DateInput, TextInput } from "@/lib/ui/text-input";
import { useSay } from "@/lib/ui/words/use-say";
import { logSwings } from "../loads/actions";
import { SWING_SOURCES } from "../loads/rules";

const WORDS = { team: "Team practice", lessons: "A lesson", games: "A game" } as const;

/** Swings away from homework, written down on the day or soon after. A game may be kept without a count. */
export function LogSwingsForm({ playerId, today }: { playerId: string; today: string }) {
  const say = useSay();
  const [state, send] = useActionState(logSwings, IDLE);
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="playerId" value={playerId} />
      <Select name="source" label={say("Where")} options={SWING_SOURCES.map((source) => ({ value: source, label: say(WORDS[source]) }))} {...fieldState(state, "source", "team")} />
      <DateInput name="day" label={say("Day")} {...fieldState(state, "day", today)} />
      <TextInput name="swings" label={say("How many swings")} inputMode="numeric" isShort autoComplete="off" hint={say("A game without a count is taken as 15.")} {...fieldState(state, "swings", "")} />
      <CheckRow name="isEasy" label={say("Easy swings, less than 60 %")} />
      <FormStatus state={state} />
      <SendButton>{say("Count these swings")}</SendButton>
    </form>
  );
}
