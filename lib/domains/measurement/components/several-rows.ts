import type { CameraView } from "@/lib/domains/clips/view";
import type { Reading } from "@/lib/measure/reading";
import { severalSwings, type SeveralSwings } from "@/lib/measure/several/summary";
import { withReadingNow } from "../rules";
import type { ComparableReadings } from "../view";

/** One checkpoint over the comparable swings, ready to be said. */
export interface SeveralRow {
  readonly checkpointId: string;
  readonly unit: string;
  readonly several: SeveralSwings;
}

/** A reading of this swing among the readings of the swings like it; null when there is no other to stand beside. */
export function severalRow(comparable: ComparableReadings, reading: Reading, view: CameraView): SeveralRow | null {
  const row = withReadingNow(comparable, reading, view);
  if (!row) return null;
  const several = severalSwings(row.readings, { band: row.band, habit: comparable.habit });
  const hasOthers = row.readings.some(({ swingId, value }) => swingId !== comparable.swingId && value !== null);
  return hasOthers ? { checkpointId: row.checkpointId, unit: row.unit, several } : null;
}

/** All checkpoints that other swings read too: what changed first, then habits, then what was seen at all. */
export function severalRows(comparable: ComparableReadings, readings: readonly Reading[], view: CameraView): readonly SeveralRow[] {
  const rank = ({ several: { change, seen } }: SeveralRow) => (change.word === "changed" ? 0 : seen.isHabit ? 1 : seen.seen > 0 ? 2 : 3);
  return readings.flatMap((reading) => severalRow(comparable, reading, view) ?? []).sort((a, b) => rank(a) - rank(b));
}
