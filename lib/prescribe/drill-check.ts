import { LEVELS, type Level } from "@/lib/core/age";
import { findCycle } from "@/lib/core/cycle";
import type { RecordProblem } from "@/lib/core/record-problem";
import { ADULT_RULES, type Drill, type GearCatalogue } from "./drill";

/** A drill with the words and links that are checked besides what choosing it needs. */
export interface CheckedDrill extends Drill {
  readonly steps: readonly string[];
  readonly worked: { readonly checkpoints: readonly { readonly checkpoint: string; readonly move: string }[] };
}

/** What a drill's links may point at. */
export interface DrillSurroundings {
  readonly gear: GearCatalogue;
  readonly faultIds: ReadonlySet<string>;
  readonly causeIds: ReadonlySet<string>;
  /** Checkpoints with a band: only these can be moved. */
  readonly bandedCheckpointIds: ReadonlySet<string>;
}

const AGES_OF: Readonly<Record<Level, readonly [number, number]>> = {
  "8-10": [8, 10], "11-12": [11, 12], "13-14": [13, 14], "15-18": [15, 18], adult: [18, 99],
};
const ONE_HAND = /one[- ]hand|(top|bottom) hand only/i;

type Say = (field: string, words: string) => void;

function checkLinks(drill: CheckedDrill, ids: ReadonlySet<string>, around: DrillSurroundings, say: Say): void {
  const gearIds = new Set([...around.gear.items, ...around.gear.groups].map((entry) => entry.id));
  for (const link of ["next", "easier"] as const) {
    const target = drill[link];
    if (target !== null && !ids.has(target)) say(link, `There is no drill "${target}".`);
  }
  for (const target of drill.requiresDrill ?? []) if (!ids.has(target)) say("requiresDrill", `There is no drill "${target}".`);
  for (const { fault } of drill.faults) if (!around.faultIds.has(fault)) say("faults", `There is no fault "${fault}".`);
  for (const cause of drill.avoidCauses ?? []) if (!around.causeIds.has(cause)) say("avoidCauses", `There is no cause "${cause}".`);
  for (const entry of drill.gear) if (!gearIds.has(entry)) say("gear", `There is no gear "${entry}".`);
  for (const { checkpoint } of drill.worked.checkpoints) {
    if (!around.bandedCheckpointIds.has(checkpoint)) say("worked.checkpoints", `There is no checkpoint "${checkpoint}" with a band.`);
  }
  if (new Set(drill.gear).size < drill.gear.length) say("gear", "An entry stands twice.");
  if (new Set(drill.faults.map(({ fault }) => fault)).size < drill.faults.length) say("faults", "A fault stands twice.");
}

function checkSafety(drill: CheckedDrill, say: Say): void {
  const { gear, setup, adult } = drill;
  const has = (...entries: string[]) => entries.some((entry) => gear.includes(entry));
  const isPitchedAt = setup === "toss" || setup === "live" || setup === "machine";
  const isAdultRun = ADULT_RULES.indexOf(adult) >= ADULT_RULES.indexOf("in-charge");
  if (isAdultRun && drill.partnerCount === 0) say("partnerCount", "An adult who runs it is a person it needs.");
  if (drill.helmet !== has("helmet")) say("helmet", "The helmet and the list of gear disagree.");
  if (isPitchedAt && !drill.helmet) say("helmet", "Tossed, pitched and machine balls need a helmet.");
  if (isPitchedAt && drill.hardBalls && !has("screen")) say("gear", "Hard balls towards the hitter need a screen.");
  if ((setup === "live" || setup === "machine") && !isAdultRun) say("adult", "Live and machine drills need an adult who runs them.");
  if ((setup === "machine" || has("machine", "fed-ball")) && adult !== "operates") say("adult", "A machine or a thrower needs an adult who operates it.");
  if (has("small-plastic-ball") && !(has("fine-mesh-screen") && has("eye-protection"))) {
    say("gear", "Small plastic balls need a fine-mesh screen and eye protection.");
  }
  if (setup === "tee" && ONE_HAND.test(drill.steps.join(" "))) {
    if (drill.minAge < 11) say("minAge", "A one-hand bat drill starts at age 11.");
    if (!drill.avoidParts.includes("wrist")) say("avoidParts", "A one-hand bat drill is left out with a wrist complaint.");
  }
  if (setup === "tee" && drill.dose.fullSwings > 0) {
    if (!has("any-tee", "adjustable-tee")) say("gear", "A tee drill needs a tee.");
    if (!has("net", "net-or-field")) say("gear", "A tee drill needs a net or an open field.");
    if (!has("any-ball", "soft-ball", "under-inflated-ball")) say("gear", "A tee drill needs balls.");
  }
}

function checkAges(drill: CheckedDrill, byId: ReadonlyMap<string, CheckedDrill>, say: Say): void {
  const inOrder = LEVELS.filter((level) => drill.levels.includes(level));
  if (inOrder.join() !== drill.levels.join()) say("levels", "Levels stand from the youngest up, each once.");
  const youngest = inOrder[0];
  const [from, to] = youngest ? AGES_OF[youngest] : [0, 0];
  if (drill.minAge < from || drill.minAge > to) say("minAge", `Age ${drill.minAge} does not lie in its youngest level (${youngest ?? "none"}).`);
  const easier = byId.get(drill.easier ?? "");
  if (easier && easier.minAge > drill.minAge) say("easier", `"${easier.id}" is for older players (from ${easier.minAge}).`);
}

/**
 * Everything that is not right in a set of drills: links to nothing, ladders that go round, ages outside their levels,
 * and safety fields that contradict each other. Each problem names the drill and the field; an empty list = all right.
 */
export function checkDrills(drills: readonly CheckedDrill[], around: DrillSurroundings): RecordProblem[] {
  const problems: RecordProblem[] = [];
  const byId = new Map(drills.map((drill) => [drill.id, drill]));
  for (const drill of drills) {
    const say: Say = (field, words) => problems.push({ file: "drills", id: drill.id, field, words });
    checkLinks(drill, new Set(byId.keys()), around, say);
    checkSafety(drill, say);
    checkAges(drill, byId, say);
  }
  const ladders = {
    next: (id: string) => [byId.get(id)?.next ?? []].flat(),
    easier: (id: string) => [byId.get(id)?.easier ?? []].flat(),
    requiresDrill: (id: string) => byId.get(id)?.requiresDrill ?? [],
  };
  for (const [field, linksOf] of Object.entries(ladders)) {
    const cycle = findCycle(byId.keys(), linksOf);
    if (cycle) problems.push({ file: "drills", id: cycle[0] ?? "", field, words: `The ladder goes round: ${cycle.join(" → ")}.` });
  }
  return problems;
}
