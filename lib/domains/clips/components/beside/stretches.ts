import type { EventId } from "../../view";

/** Pairs of own and common seconds, both strictly increasing; between them time runs evenly, outside it runs as it is. */
export type Stretches = readonly { readonly own: number; readonly common: number }[];

/** Times as they are. */
export const straight: Stretches = [];

/** An event with its own real seconds from contact. */
interface Timed {
  readonly event: EventId;
  readonly seconds: number;
}

/**
 * Lays the events of one swing on those of another: at every event that both have, own time becomes the other's. Events
 * that would turn time round are left out, contact never.
 */
export function matchedStretches(own: readonly Timed[], common: readonly Timed[]): Stretches {
  const pairs = own.flatMap(({ event, seconds }) => {
    const there = common.find((it) => it.event === event);
    return there && event !== "contact" ? [{ own: seconds, common: there.seconds }] : [];
  });
  const before = pairs.filter((it) => it.own < 0 && it.common < 0).sort((a, b) => b.own - a.own);
  const after = pairs.filter((it) => it.own > 0 && it.common > 0).sort((a, b) => a.own - b.own);
  const zero = { own: 0, common: 0 };
  return [...outward(before, zero).reverse(), zero, ...outward(after, zero)];
}

/** Those pairs that lie further out than all before them, on both clocks. */
function outward(pairs: Stretches, zero: Stretches[number]): Stretches[number][] {
  const kept: Stretches[number][] = [];
  for (const it of pairs) {
    const last = kept.at(-1) ?? zero;
    if (Math.abs(it.own) > Math.abs(last.own) && Math.abs(it.common) > Math.abs(last.common)) kept.push(it);
  }
  return kept;
}

/** Common seconds of an own instant. */
export function toCommon(stretches: Stretches, seconds: number): number {
  return through(stretches.map(({ own, common }) => [own, common] as const), seconds);
}

/** Own seconds of an instant of the common clock. */
export function toOwn(stretches: Stretches, seconds: number): number {
  return through(stretches.map(({ own, common }) => [common, own] as const), seconds);
}

/** The broken line through pairs, of slope 1 beyond them. */
function through(pairs: readonly (readonly [number, number])[], x: number): number {
  const first = pairs[0];
  const last = pairs.at(-1);
  if (!first || !last) return x;
  if (x <= first[0]) return first[1] + (x - first[0]);
  if (x >= last[0]) return last[1] + (x - last[0]);
  const i = pairs.findIndex(([from]) => from > x);
  const [a, b] = [pairs[i - 1] ?? first, pairs[i] ?? last];
  return a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
}
