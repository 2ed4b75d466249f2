"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { CheckRow } from "@/lib/ui/check-row";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { setSeasons } from "../seasons/actions";
import type { SeasonRow } from "../seasons/view";
import { SeasonFields } from "./season-fields";
import { seasonWords } from "./words";

/** Every player with the season of today; those who are ticked get the season below. */
export function SeasonsForm({ rows, today }: { rows: readonly SeasonRow[]; today: string }) {
  const [state, send] = useActionState(setSeasons, IDLE);
  return (
    <form action={send} noValidate className="flow-wide">
      <fieldset className="field">
        <legend>For whom</legend>
        {rows.map((row) => (
          <CheckRow
            key={row.playerId}
            name="playerIds[]"
            value={row.playerId}
            label={
              <>
                <b>{row.name}</b>, {row.ageYears}. {row.season ? seasonWords(row.season) : "Season not said yet."}
                {row.coachNames.length > 0 ? <span className="note"> Coached by {row.coachNames.join(", ")}.</span> : null}
              </>
            }
          />
        ))}
      </fieldset>
      <div className="form">
        <SeasonFields
          season={fieldState(state, "season")}
          from={fieldState(state, "from", today)}
          until={fieldState(state, "until", "")}
          firstGameOn={fieldState(state, "firstGameOn", "")}
        />
        <FormStatus state={state} />
        <SendButton kind="main">Keep for those ticked</SendButton>
      </div>
    </form>
  );
}
