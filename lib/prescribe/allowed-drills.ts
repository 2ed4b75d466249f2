import type { Drill, DrillPlayer, GearCatalogue } from "./drill";
import { brokenLimits, type BrokenLimit } from "./limits";
import { withinKept } from "./season";

/** A drill a player may do for a focus. */
export interface AllowedDrill<D extends Drill = Drill> {
  readonly drill: D;
  /** The fault of the focus it changes most, how much (0 to 1, the library's judgement), and why it is here in words. */
  readonly servesFault: string;
  readonly effect: number;
  readonly why: string;
}

/** A drill that serves the focus but may not be done, with every limit it breaks. */
export interface LeftOutDrill<D extends Drill = Drill> {
  readonly drill: D;
  readonly limits: readonly BrokenLimit[];
}

/** What a drill does for the focus: its largest effect on one of the faults, or null when it serves none of them. */
function serviceOf(drill: Drill, focusFaultIds: readonly string[], player: DrillPlayer) {
  const serving = drill.faults.filter(({ fault }) => focusFaultIds.includes(fault) && !player.forbiddenFocus?.includes(fault));
  return serving.reduce<(typeof serving)[number] | null>((best, next) => (best && best.effect >= next.effect ? best : next), null);
}

/**
 * The drills that serve the focus, parted into those the player may do (largest effect first, then by name) and those
 * left out with every limit they break. Drills that serve none of the faults are in neither list.
 * @param focusFaultIds library ids of the faults of the focus
 */
export function allowedDrills<D extends Drill>(
  drills: readonly D[],
  player: DrillPlayer,
  focusFaultIds: readonly string[],
  catalogue: GearCatalogue,
): { readonly allowed: readonly AllowedDrill<D>[]; readonly leftOut: readonly LeftOutDrill<D>[] } {
  const allowed: AllowedDrill<D>[] = [];
  const leftOut: LeftOutDrill<D>[] = [];
  for (const drill of drills) {
    if (!drill.faults.some(({ fault }) => focusFaultIds.includes(fault))) continue;
    const limits = brokenLimits(drill, player, catalogue);
    const service = serviceOf(drill, focusFaultIds, player);
    if (limits.length > 0) leftOut.push({ drill, limits });
    else if (service === null) leftOut.push({ drill, limits: [{ id: "season", words: "The season leaves this focus alone." }] });
    else {
      const why = service.role === "primary" ? "Made for this." : "Made for something near it; helps here too.";
      allowed.push({ drill: withinKept(drill, player), servesFault: service.fault, effect: service.effect, why });
    }
  }
  allowed.sort((a, b) => b.effect - a.effect || (a.drill.name < b.drill.name ? -1 : 1));
  leftOut.sort((a, b) => a.limits.length - b.limits.length || (a.drill.name < b.drill.name ? -1 : 1));
  return { allowed, leftOut };
}

/**
 * The first drill the player may do along the links from a drill: `next` = the step up, `easier` = the step down.
 * Drills that break a limit are skipped; null when none is left. A link to nowhere or a way round ends the search.
 */
export function allowedAlong<D extends Drill>(
  link: "next" | "easier",
  from: Drill,
  drills: readonly D[],
  player: DrillPlayer,
  catalogue: GearCatalogue,
): D | null {
  const seen = new Set([from.id]);
  let id = from[link];
  while (id !== null && !seen.has(id)) {
    seen.add(id);
    const drill = drills.find((candidate) => candidate.id === id);
    if (!drill) return null;
    if (brokenLimits(drill, player, catalogue).length === 0) return drill;
    id = drill[link];
  }
  return null;
}

/** The step up that this player may take; see {@link allowedAlong}. */
export function nextAllowed<D extends Drill>(drill: Drill, drills: readonly D[], player: DrillPlayer, catalogue: GearCatalogue): D | null {
  return allowedAlong("next", drill, drills, player, catalogue);
}

/** The step down that this player may take; see {@link allowedAlong}. */
export function easierAllowed<D extends Drill>(drill: Drill, drills: readonly D[], player: DrillPlayer, catalogue: GearCatalogue): D | null {
  return allowedAlong("easier", drill, drills, player, catalogue);
}

/**
 * How changeable each fault is for this player, by fault id: the largest effect (0 to 1) among the drills the player may
 * do. A fault that none of them serves, or that the season leaves alone, is not in it and counts as 0 in the ranking.
 */
export function changeableByFault(drills: readonly Drill[], player: DrillPlayer, catalogue: GearCatalogue): Readonly<Record<string, number>> {
  const largest: Record<string, number> = {};
  for (const drill of drills) {
    if (brokenLimits(drill, player, catalogue).length > 0) continue;
    for (const { fault, effect } of drill.faults) {
      if (!player.forbiddenFocus?.includes(fault)) largest[fault] = Math.max(effect, largest[fault] ?? 0);
    }
  }
  return largest;
}
