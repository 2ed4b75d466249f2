"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import type { PlainSentence } from "@/lib/core/words/say";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextInput } from "@/lib/ui/text-input";
import { useSay } from "@/lib/ui/words/use-say";
import { acceptLink, askReset, changePassword, makeChildLogin } from "../actions";
import { SendButton } from "./send-button";
import type { ChildLoginView } from "../view";

const HINT: PlainSentence = "At least 10 characters. Three words in a row are fine.";

/** Chooses the password with a link from a letter. */
export function AcceptLinkForm({ secret, signInName }: { secret: string; signInName: string }) {
  const say = useSay();
  const [state, send] = useActionState(acceptLink, IDLE);
  return (
    <form className="form" action={send}>
      <input type="hidden" name="secret" value={secret} />
      <input type="text" name="username" autoComplete="username" value={signInName} readOnly hidden />
      <TextInput name="password" label={say("Your new password")} type="password" autoComplete="new-password" hint={say(HINT)} required error={fieldState(state, "password").error} />
      <FormStatus state={state} />
      <SubmitButton>{say("Keep this password")}</SubmitButton>
    </form>
  );
}

/** Asks for a letter with a link; the answer tells nobody whether the name is known. */
export function AskResetForm() {
  const say = useSay();
  const [state, send] = useActionState(askReset, IDLE);
  return (
    <form className="form" action={send}>
      <TextInput name="name" label={say("Your mail address")} type="email" autoComplete="email" required {...fieldState(state, "name")} />
      <FormStatus state={state} />
      <SubmitButton>{say("Send me a link")}</SubmitButton>
    </form>
  );
}

export function ChangePasswordForm() {
  const say = useSay();
  const [state, send] = useActionState(changePassword, IDLE);
  return (
    <form className="form" action={send}>
      <TextInput name="currentPassword" label={say("The password you have now")} type="password" autoComplete="current-password" required error={fieldState(state, "currentPassword").error} />
      <TextInput name="newPassword" label={say("The new one")} type="password" autoComplete="new-password" hint={say(HINT)} required error={fieldState(state, "newPassword").error} />
      <FormStatus state={state} />
      <SendButton>{say("Change password")}</SendButton>
    </form>
  );
}

/** A guardian gives a child a user name and a password, or new ones. */
export function ChildLoginForm({ child }: { child: ChildLoginView }) {
  const say = useSay();
  const [state, send] = useActionState(makeChildLogin, IDLE);
  if (child.hasOwnMail) return <p>{say("{name} signs in by mail, and alone can change that.", { name: child.givenName })}</p>;
  return (
    <form className="form" action={send}>
      <input type="hidden" name="playerId" value={child.playerId} />
      <TextInput
        name="userName"
        label={say("User name for {name}", { name: child.givenName })}
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        hint={say("Letters, digits, points or hyphens. Not the full name.")}
        required
        {...fieldState(state, "userName", child.userName ?? "")}
      />
      <TextInput name="password" label={say("Password")} type="password" autoComplete="new-password" hint={`${say(HINT)} ${say("Write it down together.")}`} required error={fieldState(state, "password").error} />
      <FormStatus state={state} />
      <SubmitButton>{child.userName ? say("Keep the new sign-in") : say("Make the sign-in")}</SubmitButton>
    </form>
  );
}
