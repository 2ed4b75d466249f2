/** The clock of a take: runs while it is recorded and stands in a pause. It is told what the device's steady clock says, never the time of day. */
export interface TakeClock {
  /** Milliseconds recorded before it last began to run. */
  readonly beforeMs: number;
  /** What the steady clock said when it last began to run; null while it stands. */
  readonly runningSince: number | null;
}

export const stoppedClock: TakeClock = { beforeMs: 0, runningSince: null };

export function msOf({ beforeMs, runningSince }: TakeClock, steadyMs: number): number {
  return beforeMs + (runningSince === null ? 0 : Math.max(0, steadyMs - runningSince));
}

export const runClock = (clock: TakeClock, steadyMs: number): TakeClock => (clock.runningSince === null ? { ...clock, runningSince: steadyMs } : clock);
export const stopClock = (clock: TakeClock, steadyMs: number): TakeClock => ({ beforeMs: msOf(clock, steadyMs), runningSince: null });
