"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { DateInput, TextInput } from "@/lib/ui/text-input";
import { addGuardian, assignCoach, invitePlayer, reassignPlayers } from "../actions";
import { RELATIONS } from "../rules";
import type { CoachOption } from "../view";

/** Adds a guardian by mail address: a known one is the same sign-in with one more child. */
export function AddGuardianForm({ playerId }: { playerId: string }) {
  const [state, send] = useActionState(addGuardian, IDLE);
  return (
    <form className="form" action={send}>
      <input type="hidden" name="playerId" value={playerId} />
      <TextInput name="displayName" label="Name" autoComplete="off" required {...fieldState(state, "displayName")} />
      <TextInput
        name="email"
        label="Mail address"
        type="email"
        autoComplete="off"
        hint="Who signs in here already keeps that sign-in and sees this child with it."
        required
        {...fieldState(state, "email")}
      />
      <Select name="relation" label="Is to the player" options={RELATIONS.map((relation) => ({ value: relation, label: relation }))} {...fieldState(state, "relation", "parent")} />
      <FormStatus state={state} />
      <SendButton>Add guardian</SendButton>
    </form>
  );
}

/** Gives a grown-up player a sign-in of their own. */
export function InvitePlayerForm({ playerId }: { playerId: string }) {
  const [state, send] = useActionState(invitePlayer, IDLE);
  return (
    <form className="form" action={send}>
      <input type="hidden" name="playerId" value={playerId} />
      <TextInput name="email" label="The player’s mail address" type="email" autoComplete="off" required {...fieldState(state, "email")} />
      <FormStatus state={state} />
      <SendButton>Invite the player</SendButton>
    </form>
  );
}

const optionsOf = (coaches: readonly CoachOption[]) =>
  coaches.map(({ userId, name, playerCount }) => ({ value: userId, label: `${name}, ${playerCount === 1 ? "one player" : `${playerCount} players`}` }));

export function AssignCoachForm({ playerId, coaches }: { playerId: string; coaches: readonly CoachOption[] }) {
  const [state, send] = useActionState(assignCoach, IDLE);
  return (
    <form className="form" action={send}>
      <input type="hidden" name="playerId" value={playerId} />
      <Select name="userId" label="Coach" options={optionsOf(coaches)} empty {...fieldState(state, "userId")} />
      <DateInput name="from" label="From" mayBeEmpty hint="Empty means from today." {...fieldState(state, "from")} />
      <DateInput name="until" label="Until" mayBeEmpty hint="The first day on which the coach no longer sees this player." {...fieldState(state, "until")} />
      <FormStatus state={state} />
      <SendButton>Assign</SendButton>
    </form>
  );
}

/** Hands all players of one coach to another in one step. */
export function ReassignForm({ fromUserId, coaches }: { fromUserId: string; coaches: readonly CoachOption[] }) {
  const [state, send] = useActionState(reassignPlayers, IDLE);
  return (
    <form className="form" action={send}>
      <input type="hidden" name="fromUserId" value={fromUserId} />
      <Select name="toUserId" label="Who takes over" options={optionsOf(coaches)} empty hint="From today on. Who teaches a player already keeps that one." {...fieldState(state, "toUserId")} />
      <FormStatus state={state} />
      <SendButton>Hand over all players</SendButton>
    </form>
  );
}
