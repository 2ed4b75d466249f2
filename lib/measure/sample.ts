import type { LengthId } from "@/lib/measure/body-lengths";
import type { EventId } from "@/lib/measure/clip-input";
import type { Expression, FormulaScales } from "@/lib/measure/formula";
import type { PointId } from "@/lib/measure/points";
import type { SwingPosition } from "@/lib/measure/swing-coordinates";

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
 * The expression's value when every unknown lies `offsets[i]` SDs from its estimate.
 * @param offsets one number per unknown, as groupsOf
 */
export function evaluate(expression: Expression, sample: Sample, offsets: ArrayLike<number>): number {
  const { inputs, places, lengths, resting, events } = sample;
  const at = (index: number) => offsets[index] ?? 0;
  const lengthsFrom = 2 * inputs.length;
  const restingFrom = lengthsFrom + lengths.length;
  const eventsFrom = restingFrom + resting.length;
  const seconds: Partial<Record<EventId, number>> = {};
  const late: Partial<Record<EventId, number>> = {};
  events.forEach((event, i) => {
    late[event.id] = event.sd * at(eventsFrom + i);
    seconds[event.id] = event.value + (late[event.id] ?? 0);
  });
  const positions: Record<string, SwingPosition> = {};
  for (const place of places) {
    const delay = late[place.event] ?? 0;
    let h = (place.speed?.h ?? 0) * delay;
    let v = (place.speed?.v ?? 0) * delay;
    for (const { input: index, weight } of place.terms) {
      const input = inputs[index];
      if (!input) continue;
      h += weight * (input.h + input.sd * at(2 * index));
      v += weight * (input.v + input.sd * at(2 * index + 1));
    }
    positions[place.name] = { h, v };
  }
  const scales: FormulaScales = {
    length: byId(lengths, lengthsFrom, at) as FormulaScales["length"],
    resting: byId(resting, restingFrom, at),
    seconds: seconds as FormulaScales["seconds"],
  };
  return expression.value(positions, scales);
}

function byId(named: readonly Named<string>[], from: number, at: (index: number) => number): Record<string, number> {
  const values: Record<string, number> = {};
  named.forEach(({ id, value, sd }, i) => (values[id] = value + sd * at(from + i)));
  return values;
}
