"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { DateInput } from "@/lib/ui/text-input";
import { recordConsent } from "../actions";
import { CONSENT_USES } from "../rules";
import type { GuardianView } from "../view";
import { USE_WORDS } from "./words";

interface ConsentFormProps {
  playerId: string;
  /** For the office, which keeps what came on paper: who may have signed it. Left out, the reader says yes now. */
  guardians?: readonly GuardianView[];
}

/** A yes to being filmed or shown; it ends by itself after 365 days at the latest. */
export function ConsentForm({ playerId, guardians }: ConsentFormProps) {
  const [state, send] = useActionState(recordConsent, IDLE);
  return (
    <form className="form" action={send}>
      <input type="hidden" name="playerId" value={playerId} />
      <Select name="use" label="What for" options={CONSENT_USES.map((use) => ({ value: use, label: USE_WORDS[use] }))} {...fieldState(state, "use", "lesson")} />
      {guardians ? (
        <>
          <Select
            name="givenById"
            label="Signed by"
            options={guardians.map(({ userId, name }) => ({ value: userId, label: name }))}
            empty="The player, who is of age"
            {...fieldState(state, "givenById", guardians[0]?.userId)}
          />
          <DateInput name="givenOn" label="Signed on" mayBeEmpty hint="Empty means today." {...fieldState(state, "givenOn")} />
        </>
      ) : null}
      <DateInput name="validUntil" label="Until" mayBeEmpty hint="Empty means 365 days, the most there is. It can be withdrawn on any day." {...fieldState(state, "validUntil")} />
      <FormStatus state={state} />
      <SendButton kind={guardians ? undefined : "main"}>{guardians ? "Keep this consent" : "Yes, until then"}</SendButton>
    </form>
  );
}
