"use client";

import { useActionState } from "react";
import { IDLE, type ActionState } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { CheckRow } from "@/lib/ui/check-row";
import { Choice } from "@/lib/ui/choice";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { SubmitButton } from "@/lib/ui/submit-button";
import { DateInput, TextInput } from "@/lib/ui/text-input";
import { addPlayer, editPlayer } from "../actions";
import { BATS, SPORTS } from "../rules";
import type { PlayerRecord } from "../view";
import { BATS_WORDS, SPORT_WORDS } from "./words";

/** What both forms ask of a player. */
function PlayerFields({ state, record }: { state: ActionState; record?: PlayerRecord }) {
  const player = record?.player;
  const isSlapper = player?.sides.some((side) => side.isSlapper) ?? false;
  return (
    <>
      <TextInput name="givenName" label="Given name" autoComplete="off" required {...fieldState(state, "givenName", player?.givenName)} />
      <TextInput name="familyName" label="Family name" autoComplete="off" required {...fieldState(state, "familyName", record?.familyName)} />
      <DateInput
        name="birthDate"
        label="Birth date"
        hint="Limits by age follow it to the day. Coaches see the age, not the date."
        required
        {...fieldState(state, "birthDate", record?.birthDate)}
      />
      <Choice
        name="sport"
        label="Sport"
        options={SPORTS.map((sport) => ({ value: sport, label: SPORT_WORDS[sport] }))}
        isRequired
        {...fieldState(state, "sport", player?.sport ?? "baseball")}
      />
      <Choice
        name="bats"
        label="Bats"
        hint="Who bats both sides gets two records, one for each."
        options={BATS.map((bats) => ({ value: bats, label: BATS_WORDS[bats] }))}
        isRequired
        {...fieldState(state, "bats", player?.bats ?? "right")}
      />
      <CheckRow
        name="isSlapper"
        label="Slaps from the left side (softball)"
        error={fieldState(state, "isSlapper").error}
        defaultChecked={state.status === "refused" ? state.values.isSlapper === "on" : isSlapper}
      />
      <TextInput
        name="heightM"
        label="Height in metres"
        inputMode="decimal"
        autoComplete="off"
        isShort
        mayBeEmpty
        {...fieldState(state, "heightM", player?.heightM ? String(player.heightM) : "")}
      />
    </>
  );
}

export function AddPlayerForm({ locations }: { locations: readonly { id: string; name: string }[] }) {
  const [state, send] = useActionState(addPlayer, IDLE);
  return (
    <form className="form" action={send} noValidate>
      <PlayerFields state={state} />
      <Select
        name="locationId"
        label="Trains at"
        options={locations.map(({ id, name }) => ({ value: id, label: name }))}
        {...fieldState(state, "locationId", locations[0]?.id)}
      />
      <FormStatus state={state} />
      <SubmitButton>Add player</SubmitButton>
    </form>
  );
}

export function EditPlayerForm({ record }: { record: PlayerRecord }) {
  const [state, send] = useActionState(editPlayer, IDLE);
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="playerId" value={record.player.id} />
      <PlayerFields state={state} record={record} />
      <CheckRow
        name="hasLeftSchool"
        label="Has left school"
        hint="At 18 this decides between the school level and the adult level."
        defaultChecked={state.status === "refused" ? state.values.hasLeftSchool === "on" : record.hasLeftSchool}
      />
      <FormStatus state={state} />
      <SendButton>Keep</SendButton>
    </form>
  );
}
