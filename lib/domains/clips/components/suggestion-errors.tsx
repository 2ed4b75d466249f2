import { Ledger, type LedgerColumn } from "@/lib/ui/ledger";
import type { SuggestionErrorRow, SuggestionErrors as Errors } from "../suggested/view";
import { startSentence } from "./words";

const JOINTS: Readonly<Record<string, string>> = {
  nose: "nose", ear: "ears", sh: "shoulders", el: "elbows", wr: "wrists", hip: "hips", kn: "knees", an: "ankles", heel: "heels", toe: "toes",
};
const VIEWS: Readonly<Record<string, string>> = { side: "from the side", front: "from the front", rear: "from behind" };

const apart = (px: number | null, torso: number | null): string => {
  if (px === null) return "none moved";
  return torso === null ? `${px.toFixed(1)} px` : `${(100 * torso).toFixed(0)} (${px.toFixed(1)} px)`;
};

const COLUMNS: readonly LedgerColumn<SuggestionErrorRow>[] = [
  { head: "Points", cell: ({ joint, view }) => `${startSentence(JOINTS[joint] ?? joint)}, ${VIEWS[view] ?? view}` },
  { head: "Answered", cell: ({ answered }) => String(answered), isNumber: true },
  { head: "Taken as they were", cell: ({ taken, answered }) => `${taken} (${Math.round((100 * taken) / answered)} of 100)`, isNumber: true },
  { head: "Moved by, half of them", cell: ({ medianPx, medianTorso }) => apart(medianPx, medianTorso), isNumber: true },
  { head: "Moved by, 95 of 100", cell: ({ p95Px, p95Torso }) => apart(p95Px, p95Torso), isNumber: true },
];

/** How far off suggested points were, by joint and view, from what coaches made of them. */
export function SuggestionErrors({ errors }: { readonly errors: Errors }) {
  const { rows, exchangedByHand, models } = errors;
  if (rows.length === 0) return <p className="small quiet">No coach has answered a suggested point yet. How far off they are is told here, point by point, once some are taken or moved.</p>;
  return (
    <>
      <p className="small quiet">
        How far coaches had to move suggested points, in hundredths of the torso&rsquo;s length. Up to half of the moved ones lay within the first number, 95 of 100 within the second.
        {exchangedByHand > 0 ? ` Front and back of ${exchangedByHand} were exchanged by hand.` : ""}
        {models.length > 0 ? ` Model: ${models.join(", ")}.` : ""}
      </p>
      <Ledger caption="How far off suggested points were" columns={COLUMNS} rows={rows} keyOf={({ joint, view }) => `${view} ${joint}`} />
    </>
  );
}
