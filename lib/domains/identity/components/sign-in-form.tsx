"use client";

import { signIn } from "next-auth/react";
import { useState, type FormEvent } from "react";
import { Button } from "@/lib/ui/button";
import { TextInput } from "@/lib/ui/text-input";
import { useSay } from "@/lib/ui/words/use-say";
import type { PlainSentence } from "@/lib/core/words/say";

const REFUSALS: Readonly<Record<string, PlainSentence>> = {
  wrong: "This name and this password do not belong together. Check both, or ask for a new password below.",
  closed: "This sign-in is closed. Ask an admin of your academy.",
  "no-role": "You have no role here today. Ask an admin of your academy.",
  "too-many": "Too many tries. Wait 15 minutes, then try again or ask for a new password.",
};
const OURS: PlainSentence = "Something went wrong on our side. Try again in a moment.";

/** Mail address or user name, and the password; afterwards the door sends everybody to their first page. */
export function SignInForm() {
  const say = useSay();
  const [refusal, setRefusal] = useState<PlainSentence | null>(null);
  const [isOnItsWay, setIsOnItsWay] = useState(false);
  const send = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    if (isOnItsWay) return;
    setIsOnItsWay(true);
    const form = new FormData(event.currentTarget);
    const answer = await signIn("credentials", { redirect: false, name: String(form.get("name")), password: String(form.get("password")) }).catch(() => undefined);
    if (answer?.ok && !answer.error) {
      // A whole new page: nothing of who was here before stays in the browser.
      window.location.replace("/");
      return;
    }
    setIsOnItsWay(false);
    setRefusal(REFUSALS[answer?.error ?? ""] ?? OURS);
  };
  return (
    <form className="form" onSubmit={send} method="post">
      <TextInput name="name" label={say("Mail address or user name")} autoComplete="username" autoCapitalize="none" spellCheck={false} required />
      <TextInput name="password" label={say("Password")} type="password" autoComplete="current-password" required />
      {refusal ? (
        <p className="trouble" role="alert">
          {say(refusal)}
        </p>
      ) : null}
      <Button kind="main" type="submit" aria-disabled={isOnItsWay || undefined}>
        {isOnItsWay ? say("Signing in …") : say("Sign in")}
      </Button>
    </form>
  );
}
