import { english, type Say } from "@/lib/core/words/say";

/** How many bytes had arrived at a moment. */
export interface PaceSample {
  readonly atMs: number;
  readonly bytes: number;
}

/** How fast it goes, and how long it will still take. */
export interface Pace {
  readonly bytesPerSecond: number;
  readonly secondsLeft: number;
}

/** What is older says little of the line as it is now. */
const LOOKED_BACK_MS = 10_000;
/** Before so much time has passed nothing is said: the first piece comes out of a buffer. */
const LEAST_MS = 1500;

/** The samples worth remembering once a new one has come. Bytes that go back (a sending that began anew) forget what was before. */
export function withSample(samples: readonly PaceSample[], sample: PaceSample): readonly PaceSample[] {
  const last = samples.at(-1);
  if (last && (sample.bytes < last.bytes || sample.atMs < last.atMs)) return [sample];
  return [...samples.filter(({ atMs }) => sample.atMs - atMs <= LOOKED_BACK_MS), sample];
}

/** The pace of the last seconds; null while too little is known, or nothing moves. */
export function paceOf(samples: readonly PaceSample[], totalBytes: number): Pace | null {
  const [first, last] = [samples[0], samples.at(-1)];
  if (!first || !last || last.atMs - first.atMs < LEAST_MS || last.bytes <= first.bytes) return null;
  const bytesPerSecond = ((last.bytes - first.bytes) * 1000) / (last.atMs - first.atMs);
  return { bytesPerSecond, secondsLeft: Math.max(0, totalBytes - last.bytes) / bytesPerSecond };
}

/** "2.4 MB a second, about 40 s left", in steps that a person can use. */
export function sayPace({ bytesPerSecond, secondsLeft }: Pace, say: Say = english): string {
  const speed = bytesPerSecond >= 1e6 ? say("{speed} MB a second", { speed: (bytesPerSecond / 1e6).toFixed(1) }) : say("{speed} KB a second", { speed: Math.max(1, Math.round(bytesPerSecond / 1e3)) });
  return `${speed}, ${sayLeft(secondsLeft, say)}`;
}

function sayLeft(seconds: number, say: Say): string {
  if (seconds < 5) return say("nearly there");
  if (seconds < 90) return say("about {count} s left", { count: Math.ceil(seconds / 5) * 5 });
  const minutes = Math.ceil(seconds / 60);
  return minutes < 90 ? say("about {count} min left", { count: minutes }) : say("about {count} hours left", { count: Math.ceil(minutes / 60) });
}
