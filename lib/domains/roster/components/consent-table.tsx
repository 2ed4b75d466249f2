import { ActButton } from "@/lib/domains/identity/components/act-button";
import { Ledger } from "@/lib/ui/ledger";
import { State } from "@/lib/ui/state";
import { withdrawConsent } from "../actions";
import type { ConsentView } from "../view";
import { dayWords, USE_WORDS } from "./words";

/** Everything that was said yes to, newest first, and the way to withdraw what holds. */
export function ConsentTable({ playerId, consents }: { playerId: string; consents: readonly ConsentView[] }) {
  if (consents.length === 0) return <p>No consent yet: nothing may be filmed or shown.</p>;
  return (
    <Ledger
      caption="Consents"
      rows={consents}
      keyOf={(row) => row.id}
      columns={[
        { head: "What for", cell: (row) => USE_WORDS[row.use] },
        { head: "Given", cell: (row) => `${dayWords(row.givenOn)}, ${row.givenBy ?? "the player"}, ${row.method === "paper" ? "on paper" : "signed in"}` },
        { head: "Until", cell: (row) => dayWords(row.validUntil) },
        { head: "Holds", cell: (row) => (row.isValid ? "yes" : <State is="waiting">{row.isWithdrawn ? "withdrawn" : "lapsed"}</State>) },
        {
          head: "Withdraw",
          isPlain: true,
          cell: (row) =>
            row.isValid ? (
              <ActButton action={withdrawConsent} fields={{ playerId, use: row.use }} label={`Withdraw: ${USE_WORDS[row.use]}`}>
                Withdraw
              </ActButton>
            ) : null,
        },
      ]}
    />
  );
}
