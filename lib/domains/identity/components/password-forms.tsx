"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextInput } from "@/lib/ui/text-input";
import { acceptLink, askReset, changePassword, makeChildLogin } from "../actions";
import { SendButton } from "./send-button";
import type { ChildLoginView } from "../view";

const HINT = "At least 10 characters. Three words in a row are fine.";

/** Chooses the password with a link from a letter. */
export function AcceptLinkForm({ secret, signInName }: { secret: string; signInName: string }) {
  const [state, send] = useActionState(acceptLink, IDLE);
  return (
    <form className="form" action={send}>
      <input type="hidden" name="secret" value={secret} />
      <input type="text" name="username" autoComplete="username" value={signInName} readOnly hidden />
      <TextInput name="password" label="Your new password" type="password" autoComplete="new-password" hint={HINT} required error={fieldState(state, "password").error} />
      <FormStatus state={state} />
      <SubmitButton>Keep this password</SubmitButton>
    </form>
  );
}

/** Asks for a letter with a link; the answer tells nobody whether the name is known. */
export function AskResetForm() {
  const [state, send] = useActionState(askReset, IDLE);
  return (
    <form className="form" action={send}>
      <TextInput name="name" label="Your mail address" type="email" autoComplete="email" required {...fieldState(state, "name")} />
      <FormStatus state={state} />
      <SubmitButton>Send me a link</SubmitButton>
    </form>
  );
}

export function ChangePasswordForm() {
  const [state, send] = useActionState(changePassword, IDLE);
  return (
    <form className="form" action={send}>
      <TextInput name="currentPassword" label="The password you have now" type="password" autoComplete="current-password" required error={fieldState(state, "currentPassword").error} />
      <TextInput name="newPassword" label="The new one" type="password" autoComplete="new-password" hint={HINT} required error={fieldState(state, "newPassword").error} />
      <FormStatus state={state} />
      <SendButton>Change password</SendButton>
    </form>
  );
}

/** A guardian gives a child a user name and a password, or new ones. */
export function ChildLoginForm({ child }: { child: ChildLoginView }) {
  const [state, send] = useActionState(makeChildLogin, IDLE);
  if (child.hasOwnMail) return <p>{child.givenName} signs in by mail, and alone can change that.</p>;
  return (
    <form className="form" action={send}>
      <input type="hidden" name="playerId" value={child.playerId} />
      <TextInput
        name="userName"
        label={`User name for ${child.givenName}`}
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        hint="Letters, digits, points or hyphens. Not the full name."
        required
        {...fieldState(state, "userName", child.userName ?? "")}
      />
      <TextInput name="password" label="Password" type="password" autoComplete="new-password" hint={`${HINT} Write it down together.`} required error={fieldState(state, "password").error} />
      <FormStatus state={state} />
      <SubmitButton>{child.userName ? "Keep the new sign-in" : "Make the sign-in"}</SubmitButton>
    </form>
  );
}
