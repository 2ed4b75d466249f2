"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { Choice } from "@/lib/ui/choice";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { DateInput, TextInput } from "@/lib/ui/text-input";
import { grantRole, inviteStaff } from "../actions";
import { SendButton } from "./send-button";
import { STAFF_ROLE_WORDS, STAFF_ROLES, type StaffRole } from "../rules";

const optionsOf = (roles: readonly StaffRole[]) => roles.map((role) => ({ value: role, label: STAFF_ROLE_WORDS[role] }));

/** Invites a coach, a head coach or an admin. */
export function InviteStaffForm() {
  const [state, send] = useActionState(inviteStaff, IDLE);
  return (
    <form className="form" action={send}>
      <TextInput name="displayName" label="Name" autoComplete="off" required {...fieldState(state, "displayName")} />
      <TextInput
        name="email"
        label="Mail address"
        type="email"
        autoComplete="off"
        hint="A letter with a link goes there. Who signs in here already gets the role added."
        required
        {...fieldState(state, "email")}
      />
      <Choice name="role" label="Role" options={optionsOf(STAFF_ROLES)} isRequired {...fieldState(state, "role", "coach")} />
      <FormStatus state={state} />
      <SubmitButton>Invite</SubmitButton>
    </form>
  );
}

/** Gives a person one more role, from a day and perhaps until one. */
export function GrantRoleForm({ userId, grantable }: { userId: string; grantable: readonly StaffRole[] }) {
  const [state, send] = useActionState(grantRole, IDLE);
  return (
    <form className="form" action={send}>
      <input type="hidden" name="userId" value={userId} />
      <Choice name="role" label="Role" options={optionsOf(grantable)} isRequired {...fieldState(state, "role", grantable[0])} />
      <DateInput name="from" label="From" mayBeEmpty hint="Empty means from today." {...fieldState(state, "from")} />
      <DateInput name="until" label="Until" mayBeEmpty hint="The first day on which it no longer holds." {...fieldState(state, "until")} />
      <FormStatus state={state} />
      <SendButton>Give this role</SendButton>
    </form>
  );
}
