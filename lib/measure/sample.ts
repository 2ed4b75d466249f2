import type { LengthId } from "@/lib/measure/body-lengths";
import type { EventId } from "@/lib/measure/clip-input";
import type { Expression, FormulaScales } from "@/lib/measure/formula";
import type { PointId } from "@/lib/measure/points";

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

/** A place as a weighted sum of inputs, and how fast it moves around its event (pixels a second). */
export interface SamplePlace {
  readonly name: string;
  readonly event: EventId;
  readonly terms: readonly { readonly input: number; readonly weight: number }[];
  readonly speed: { readonly h: number; readonly v: number } | null;
}

/**
 * Everything an expression reads, with its noise. Its unknowns stand in one row, each in units of its SD: h and v of
 * every input, then lengths, resting heights, event times. They are independent of each other.
 */
export interface Sample {
  readonly inputs: readonly SampleInput[];
  readonly places: readonly SamplePlace[];
  readonly lengths: readonly Named<LengthId>[];
  readonly resting: readonly Named<string>[];
  readonly events: readonly Named<EventId>[];
}

export type DoubtGroup = "points" | "scale" | "time";

/** Which doubt each unknown of a sample belongs to, in the order of its row. */
export function groupsOf(sample: Sample): readonly DoubtGroup[] {
  return [
    ...sample.inputs.flatMap((): DoubtGroup[] => ["points", "points"]),
    ...sample.lengths.map((): DoubtGroup => "scale"),
    ...sample.resting.map((): DoubtGroup => "points"),
    ...sample.events.map((): DoubtGroup => "time"),
  ];
}

/**
 * A function that gives the expression's value when every unknown lies `offsets[i]` SDs from its estimate; one number
 * per unknown, as groupsOf. It reuses its own memory between calls, since a folded reading calls it hundreds of times.
 */
export function evaluatorOf(expression: Expression, sample: Sample): (offsets: Float64Array) => number {
  const { inputs, places, lengths, resting, events } = sample;
  const lengthsFrom = 2 * inputs.length;
  const restingFrom = lengthsFrom + lengths.length;
  const eventsFrom = restingFrom + resting.length;
  const seconds: Partial<Record<EventId, number>> = {};
  const scales = { length: {} as Record<LengthId, number>, resting: {} as Record<string, number>, seconds: seconds as FormulaScales["seconds"] };
  const positions: Record<string, { h: number; v: number }> = {};
  const plans = places.map((place) => {
    const position = { h: 0, v: 0 };
    positions[place.name] = position;
    const terms = place.terms.flatMap(({ input: index, weight }) => {
      const input = inputs[index];
      return input ? [{ h: weight * input.h, v: weight * input.v, sd: weight * input.sd, at: 2 * index }] : [];
    });
    const event = events.findIndex(({ id }) => id === place.event);
    const late = (events[event]?.sd ?? 0) * (place.speed ? 1 : 0);
    return { position, terms, lateH: late * (place.speed?.h ?? 0), lateV: late * (place.speed?.v ?? 0), eventAt: eventsFrom + event };
  });
  return (offsets) => {
    lengths.forEach(({ id, value, sd }, i) => (scales.length[id] = value + sd * (offsets[lengthsFrom + i] ?? 0)));
    resting.forEach(({ id, value, sd }, i) => (scales.resting[id] = value + sd * (offsets[restingFrom + i] ?? 0)));
    events.forEach(({ id, value, sd }, i) => (seconds[id] = value + sd * (offsets[eventsFrom + i] ?? 0)));
    for (const { position, terms, lateH, lateV, eventAt } of plans) {
      const delay = offsets[eventAt] ?? 0;
      let h = lateH * delay;
      let v = lateV * delay;
      for (const term of terms) {
        h += term.h + term.sd * (offsets[term.at] ?? 0);
        v += term.v + term.sd * (offsets[term.at + 1] ?? 0);
      }
      position.h = h;
      position.v = v;
    }
    return expression.value(positions, scales);
  };
}
