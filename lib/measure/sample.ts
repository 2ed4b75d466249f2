import type { LengthId } from "@/lib/measure/body-lengths";
import type { EventId } from "@/lib/measure/clip-input";
import type { Expression } from "@/lib/measure/formula";
import type { FormulaScales } from "@/lib/measure/formula-scales";
import type { PointId } from "@/lib/measure/points";
import { windowFiller, windowUnknownCount, type SampleWindow, type WindowBase } from "@/lib/measure/sample-window";
import type { WindowView } from "@/lib/measure/window-read";

/** A number with its SD, by name. */
export interface Named<K extends string> {
  readonly id: K;
  readonly value: number;
  readonly sd: number;
}

/** One point on one frame: the smallest thing that carries noise. Pixels, swing coordinates. */
export interface SampleInput {
  readonly point: PointId;
  readonly frame: number;
  readonly h: number;
  readonly v: number;
  readonly sd: number;
}

/** A place as a weighted sum of inputs, and how fast it moves around its moment (pixels a second). */
export interface SamplePlace {
  readonly name: string;
  /** The events whose times make its moment, with their weights. */
  readonly moment: readonly { readonly event: EventId; readonly weight: number }[];
  readonly terms: readonly { readonly input: number; readonly weight: number }[];
  readonly speed: { readonly h: number; readonly v: number } | null;
  /** How that speed changes there, pixels a second squared; null = taken as steady. */
  readonly bend: { readonly h: number; readonly v: number } | null;
}

/**
 * Everything an expression reads, with its noise. Its unknowns stand in one row, each in units of its SD: h and v of
 * every input, then lengths, resting heights, event times, then the window's points sample by sample. They are independent
 * of each other.
 */
export interface Sample {
  readonly inputs: readonly SampleInput[];
  readonly places: readonly SamplePlace[];
  readonly lengths: readonly Named<LengthId>[];
  readonly resting: readonly Named<string>[];
  readonly events: readonly Named<EventId>[];
  readonly window: SampleWindow | null;
}

export type DoubtGroup = "points" | "scale" | "time";

/** Which doubt each unknown of a sample belongs to, in the order of its row, those of a window's points left out. */
export function groupsBesideWindow({ inputs, lengths, resting, events }: Sample): readonly DoubtGroup[] {
  const row = new Array<DoubtGroup>(2 * inputs.length).fill("points");
  for (let i = 0; i < lengths.length; i++) row.push("scale");
  for (let i = 0; i < resting.length; i++) row.push("points");
  for (let i = 0; i < events.length; i++) row.push("time");
  return row;
}

/** The same with every sample of a window's points. */
export function groupsOf(sample: Sample): readonly DoubtGroup[] {
  return [...groupsBesideWindow(sample), ...new Array<DoubtGroup>(windowUnknownCount(sample.window)).fill("points")];
}

/** A place with the numbers of its inputs and of the event times that move it. */
interface PlacePlan {
  readonly position: { h: number; v: number };
  readonly terms: readonly { readonly h: number; readonly v: number; readonly sd: number; readonly at: number }[];
  readonly delays: readonly { readonly seconds: number; readonly at: number }[];
  readonly speed: { readonly h: number; readonly v: number };
  readonly bend: { readonly h: number; readonly v: number };
}

const STILL = { h: 0, v: 0 };

function put({ position, terms, delays, speed, bend }: PlacePlan, offsets: Float64Array): void {
  let late = 0;
  for (let i = 0; i < delays.length; i++) {
    const delay = delays[i];
    if (delay) late += delay.seconds * (offsets[delay.at] ?? 0);
  }
  let h = late * (speed.h + (late * bend.h) / 2);
  let v = late * (speed.v + (late * bend.v) / 2);
  for (let i = 0; i < terms.length; i++) {
    const term = terms[i];
    if (!term) continue;
    h += term.h + term.sd * (offsets[term.at] ?? 0);
    v += term.v + term.sd * (offsets[term.at + 1] ?? 0);
  }
  position.h = h;
  position.v = v;
}

/** What a formula without a window is given in its place. */
const NO_WINDOW: WindowView = { seconds: new Float64Array(0), first: 0, last: -1, from: NaN, to: NaN, framePeriodSeconds: NaN, at: {}, decidedBy: -1 };

/** The values of one set of unknowns. */
export interface Evaluator {
  /**
   * The expression's value when every unknown lies `offsets[i]` SDs from its estimate; one number per unknown, as groupsOf, or
   * as groupsBesideWindow where the window's points stay.
   */
  readonly valueAt: (offsets: Float64Array) => number;
  /** The same with the window's points under the noise that starts at a place of the pool; offsets as groupsBesideWindow. */
  readonly drawnAt: (offsets: Float64Array, place: number) => number;
  /** Numbers of noise that one draw of the window takes. */
  readonly noiseLength: number;
  /** The scales and the window of the last value, for what else is asked about it. */
  readonly scales: FormulaScales;
  readonly window: WindowView;
}

/**
 * Evaluates an expression at a sample. It reuses its own memory between calls, since a drawn reading calls it hundreds of
 * times.
 * @param base what a window is read from
 */
export function evaluatorOf(expression: Expression, sample: Sample, base: WindowBase = "placed"): Evaluator {
  const { inputs, places, lengths, resting, events } = sample;
  const lengthsFrom = 2 * inputs.length;
  const restingFrom = lengthsFrom + lengths.length;
  const eventsFrom = restingFrom + resting.length;
  const windowFrom = eventsFrom + events.length;
  const seconds: Partial<Record<EventId, number>> = {};
  const scales = { length: {} as Record<LengthId, number>, resting: {} as Record<string, number>, seconds: seconds as FormulaScales["seconds"] };
  const positions: Record<string, { h: number; v: number }> = {};
  const filler = sample.window ? windowFiller(sample.window, base) : null;
  const window = filler?.view ?? NO_WINDOW;
  const plans = places.map((place): PlacePlan => {
    const position = { h: 0, v: 0 };
    positions[place.name] = position;
    const terms = place.terms.flatMap(({ input: index, weight }) => {
      const input = inputs[index];
      return input ? [{ h: weight * input.h, v: weight * input.v, sd: weight * input.sd, at: 2 * index }] : [];
    });
    const delays = place.moment.map(({ event, weight }) => {
      const index = events.findIndex(({ id }) => id === event);
      return { seconds: place.speed ? weight * (events[index]?.sd ?? 0) : 0, at: eventsFrom + index };
    });
    return { position, terms, delays, speed: place.speed ?? STILL, bend: place.bend ?? STILL };
  });
  const place = (offsets: Float64Array): void => {
    for (let i = 0; i < lengths.length; i++) {
      const length = lengths[i];
      if (length) scales.length[length.id] = length.value + length.sd * (offsets[lengthsFrom + i] ?? 0);
    }
    for (let i = 0; i < resting.length; i++) {
      const height = resting[i];
      if (height) scales.resting[height.id] = height.value + height.sd * (offsets[restingFrom + i] ?? 0);
    }
    for (let i = 0; i < events.length; i++) {
      const event = events[i];
      if (event) seconds[event.id] = event.value + event.sd * (offsets[eventsFrom + i] ?? 0);
    }
    for (let p = 0; p < plans.length; p++) {
      const plan = plans[p];
      if (plan) put(plan, offsets);
    }
  };
  return {
    valueAt: (offsets) => {
      place(offsets);
      filler?.fill(scales.seconds, offsets, windowFrom);
      return expression.value(positions, scales, window);
    },
    drawnAt: (offsets, noisePlace) => {
      place(offsets);
      filler?.draw(scales.seconds, noisePlace);
      return expression.value(positions, scales, window);
    },
    noiseLength: windowUnknownCount(sample.window),
    scales,
    window,
  };
}
