import { Ledger, type LedgerColumn } from "@/lib/ui/ledger";
import type { BandWords, FaultCheckpointView } from "../view";

const inBand = (which: keyof BandWords) =>
  function BandCell({ band, bandYouth }: FaultCheckpointView) {
    if (!band) return "no band";
    return (
      <>
        {band[which]}
        {bandYouth && bandYouth[which] !== band[which] ? <span className="note"> under 13: {bandYouth[which]}</span> : null}
      </>
    );
  };

const COLUMNS: readonly LedgerColumn<FaultCheckpointView>[] = [
  {
    head: "Checkpoint",
    cell: ({ name, good }) => (
      <>
        {name}
        <span className="note" style={{ display: "block", fontWeight: 400 }}>
          {good}
        </span>
      </>
    ),
  },
  { head: "Fine", cell: inBand("fine") },
  { head: "Watch", cell: inBand("watch") },
  { head: "Talk about", cell: inBand("talkAbout") },
  {
    head: "Counts here",
    cell: ({ countsFrom, countsFromYouth }) => (
      <>
        {countsFrom}
        {countsFromYouth ? <span className="note"> under 13: {countsFromYouth}</span> : null}
      </>
    ),
  },
  {
    head: "How it is told",
    cell: ({ isMeasured, views, minFps }) =>
      isMeasured ? `Read from a clip ${views.join(" or ")}; ${minFps} frames a second or more` : `By eye ${views.join(" or ")}`,
  },
];

/** The checkpoints of a fault with their bands in words; what is judged by eye says so. */
export function CheckpointLedger({ checkpoints }: { checkpoints: readonly FaultCheckpointView[] }) {
  return <Ledger caption="Checkpoints of this fault, and from where each one counts" columns={COLUMNS} rows={checkpoints} keyOf={({ id, countsFrom }) => `${id} ${countsFrom}`} />;
}
