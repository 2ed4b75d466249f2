import type { GearCatalogue } from "./drill";

/** Gear that also counts as another item. A fine-mesh screen is a screen; nothing else stands in for anything. */
const ALSO_COUNTS_AS: Readonly<Record<string, string>> = { "fine-mesh-screen": "screen" };
/** Balls soft enough to take the place of regulation balls. */
const SOFT_BALLS = ["soft-core-ball", "foam-ball", "tennis-ball"];

/** True when soft balls are among the items, so that no hard ball need be used. */
export function hasSoftBalls(items: readonly string[]): boolean {
  return SOFT_BALLS.some((ball) => items.includes(ball));
}

/** Which entries of a drill's gear (items or groups, all needed) the items do not meet; an unknown entry is never met. */
export function missingGear(needed: readonly string[], items: readonly string[], catalogue: GearCatalogue): string[] {
  const has = new Set(items.flatMap((item) => [item, ALSO_COUNTS_AS[item] ?? item]));
  return needed.filter((entry) => {
    const group = catalogue.groups.find(({ id }) => id === entry);
    return group ? !group.anyOf.some((item) => has.has(item)) : !has.has(entry);
  });
}

/** Names of items and groups for people, in the catalogue's words; an unknown one by its id. */
export function gearNames(entries: readonly string[], catalogue: GearCatalogue): string[] {
  const named = [...catalogue.items, ...catalogue.groups];
  return entries.map((entry) => named.find(({ id }) => id === entry)?.name ?? entry);
}
