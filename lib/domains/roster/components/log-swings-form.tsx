"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { CheckRow } from "@/lib/ui/check-row";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { DateInput, TextInput } from "@/lib/ui/text-input";
import { logSwings } from "../loads/actions";
import { SWING_SOURCES } from "../loads/rules";

const WORDS = { team: "Team practice", lessons: "A lesson", games: "A game" } as const;

/** Swings away from homework, written down on the day or soon after. A game may be kept without a count. */
export function LogSwingsForm({ playerId, today }: { playerId: string; today: string }) {
  const [state, send] = useActionState(logSwings, IDLE);
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="playerId" value={playerId} />
      <Select name="source" label="Where" options={SWING_SOURCES.map((source) => ({ value: source, label: WORDS[source] }))} {...fieldState(state, "source", "team")} />
      <DateInput name="day" label="Day" {...fieldState(state, "day", today)} />
      <TextInput name="swings" label="How many swings" inputMode="numeric" isShort autoComplete="off" hint="A game without a count is taken as 15." {...fieldState(state, "swings", "")} />
      <CheckRow name="isEasy" label="Easy swings, less than 60 %" />
      <FormStatus state={state} />
      <SendButton>Count these swings</SendButton>
    </form>
  );
}
