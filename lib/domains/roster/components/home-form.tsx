"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { CheckRow } from "@/lib/ui/check-row";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { TextInput } from "@/lib/ui/text-input";
import { setHomeSetup } from "../actions";
import { ADULTS_AT_HOME } from "../rules";
import type { HomeView } from "../view";
import { ADULT_WORDS } from "./words";

interface HomeFormProps {
  playerId: string;
  home: HomeView | null;
  /** The gear of the library that a home can have. */
  gear: readonly { id: string; name: string }[];
}

/** What is at home: gear, space, who is there, how much time. Drills are chosen to fit it. */
export function HomeForm({ playerId, home, gear }: HomeFormProps) {
  const [state, send] = useActionState(setHomeSetup, IDLE);
  const number = (name: string, label: string, initial: number | undefined, hint?: string) => (
    <TextInput name={name} label={label} inputMode="decimal" autoComplete="off" isShort required hint={hint} {...fieldState(state, name, initial === undefined ? "" : String(initial))} />
  );
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="playerId" value={playerId} />
      <fieldset className="field">
        <legend>Gear at home</legend>
        <div className="gear-list">
          {gear.map(({ id, name }) => (
            <CheckRow key={id} name="gear[]" value={id} label={name} defaultChecked={home?.gear.includes(id)} />
          ))}
        </div>
      </fieldset>
      {number("widthM", "Free width in metres", home?.widthM)}
      {number("lengthM", "Free length in metres", home?.lengthM)}
      <CheckRow name="hasCage" label="There is a cage" defaultChecked={home?.hasCage} />
      {number("partnerCount", "Partners who can help", home?.partnerCount ?? 0)}
      <Select name="adult" label="Which grown-up is there" options={ADULTS_AT_HOME.map((adult) => ({ value: adult, label: ADULT_WORDS[adult] }))} {...fieldState(state, "adult", home?.adult ?? "none")} />
      {number("minutesPerDay", "Minutes a day", home?.minutesPerDay ?? 15)}
      {number("daysPerWeek", "Days a week", home?.daysPerWeek ?? 4, "Five at most: two days are free.")}
      <FormStatus state={state} />
      <SendButton>Keep</SendButton>
    </form>
  );
}
