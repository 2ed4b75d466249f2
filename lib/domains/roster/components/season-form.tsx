"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { setSeason } from "../seasons/actions";
import type { SeasonNow } from "../seasons/view";
import { SeasonFields } from "./season-fields";

/** In which part of the year one player is, from when and until when. */
export function SeasonForm({ playerId, season, today }: { playerId: string; season: SeasonNow | null; today: string }) {
  const [state, send] = useActionState(setSeason, IDLE);
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="playerId" value={playerId} />
      <SeasonFields
        season={fieldState(state, "season", season?.season)}
        from={fieldState(state, "from", today)}
        until={fieldState(state, "until", "")}
        firstGameOn={fieldState(state, "firstGameOn", season?.firstGameOn ?? "")}
      />
      <FormStatus state={state} />
      <SendButton>Keep the season</SendButton>
    </form>
  );
}
