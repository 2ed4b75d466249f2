import { LEVELS, type Level } from "@/lib/core/age";
import { capital, factWords } from "./like-for-like";

/** For whom a model swing is looked for, and how the swing beside it was taken. A fact that is null does not count. */
export interface ModelWanted {
  readonly side: "right" | "left";
  readonly view: string;
  readonly sport: string;
  /** Standing height in metres; null when nobody noted it. */
  readonly heightM: number | null;
  readonly level: Level;
  /** Of age: a grown body. */
  readonly isAdult: boolean;
  readonly swingKind: string | null;
  readonly task: string | null;
  readonly pitchHeight: string | null;
  readonly pitchSide: string | null;
}

/** A model swing, or one clip of it, as it is tagged. */
export type ModelTagged = { readonly [Fact in keyof ModelWanted]: NonNullable<ModelWanted[Fact]> | (Fact extends "heightM" ? null : never) } & { readonly id: string };

/** Why a model is near, or what is otherwise. */
export interface NearReason {
  readonly isNear: boolean;
  readonly words: string;
}

/** One model beside what was asked for. */
export interface NearModel<Model> {
  readonly model: Model;
  /** Batted from the other side: it is shown as in a mirror. */
  readonly isShownMirrored: boolean;
  /** Alike in side and sport, and near in height and level. */
  readonly isMatch: boolean;
  /** In the order in which they count. */
  readonly reasons: readonly NearReason[];
}

/** A height that differs by so much of the hitter's is about the same, near, or far. */
const SAME_HEIGHT = 0.05;
const NEAR_HEIGHT = 0.1;
const FAR_HEIGHT = 0.2;

/** A fact compared: how far apart (0 is alike), and the reason in words. */
interface Compared extends NearReason {
  readonly steps: number;
}

const near = (words: string): Compared => ({ steps: 0, isNear: true, words });
const far = (steps: number, words: string): Compared => ({ steps, isNear: false, words });

/**
 * The models that can stand beside a swing, nearest first: those of the same view and kind of swing (a running slap is like no
 * other swing). What counts, in this order: side, sport, height, level, task, where the pitch was; a later fact decides only
 * among models that are alike in all before it. Models alike in everything stand by their ids.
 */
export function nearModels<Model extends ModelTagged>(wanted: ModelWanted, models: readonly Model[]): readonly NearModel<Model>[] {
  const found = models.filter((model) => model.view === wanted.view && isSlap(model.swingKind) === isSlap(wanted.swingKind));
  return found
    .map((model) => ({ model, compared: compare(wanted, model) }))
    .sort((a, b) => firstDifference(a.compared, b.compared) || (a.model.id < b.model.id ? -1 : 1))
    .map(({ model, compared }) => ({
      model,
      isShownMirrored: model.side !== wanted.side,
      isMatch: isMatch(compared),
      reasons: compared.filter(({ words }) => words !== "").map(({ isNear, words }) => ({ isNear, words })),
    }));
}

const isSlap = (kind: string | null) => kind === "running-slap";

function firstDifference(a: readonly Compared[], b: readonly Compared[]): number {
  for (const [i, { steps }] of a.entries()) if (steps !== b[i]?.steps) return steps - (b[i]?.steps ?? 0);
  return 0;
}

function compare(wanted: ModelWanted, model: ModelTagged): readonly [Compared, Compared, Compared, Compared, Compared, Compared, Compared] {
  return [
    wanted.side === model.side ? near(`Bats ${model.side} too`) : far(1, `Bats ${model.side}, shown mirrored`),
    wanted.sport === model.sport ? near(`${capital(model.sport)} too`) : far(1, `${capital(model.sport)}, not ${wanted.sport}`),
    compareHeight(wanted.heightM, model.heightM),
    compareLevel(wanted.level, model.level),
    compareTaken("task", wanted.task, model.task),
    compareTaken("pitchHeight", wanted.pitchHeight, model.pitchHeight),
    compareTaken("pitchSide", wanted.pitchSide, model.pitchSide),
  ];
}

function compareHeight(wantedM: number | null, modelM: number | null): Compared {
  if (wantedM === null || modelM === null) return far(2, wantedM === null ? "The player's height is not noted" : "The model's height is not noted");
  const apart = Math.abs(modelM - wantedM) / wantedM;
  const words = `${modelM > wantedM ? "taller" : "shorter"}: ${metres(modelM)} against ${metres(wantedM)}`;
  if (apart <= SAME_HEIGHT) return near(`About as tall: ${metres(modelM)}`);
  if (apart <= NEAR_HEIGHT) return far(1, `A little ${words}`);
  return apart <= FAR_HEIGHT ? far(3, capital(words)) : far(4, `Much ${words}`);
}

function compareLevel(wanted: Level, model: Level): Compared {
  const steps = Math.abs(LEVELS.indexOf(model) - LEVELS.indexOf(wanted));
  return steps === 0 ? near(`Same level, ${levelWords(model)}`) : far(steps, `Level ${levelWords(model)}, not ${levelWords(wanted)}`);
}

/** Unknown lies between alike and otherwise; what nobody asked for counts nothing and says nothing. */
function compareTaken(fact: "task" | "pitchHeight" | "pitchSide", wanted: string | null, model: string): Compared {
  if (wanted === null || (wanted === "unknown" && model === "unknown")) return near("");
  if (wanted === model) return near(`${capital(factWords(fact, model))} too`);
  if (wanted === "unknown" || model === "unknown") return far(1, wanted === "unknown" ? "" : capital(factWords(fact, model)));
  return far(2, `${capital(factWords(fact, model))}, not ${factWords(fact, wanted)}`);
}

const NEAR_HEIGHT_STEPS = 2;
const NEAR_LEVEL_STEPS = 1;

function isMatch([side, sport, height, level]: ReturnType<typeof compare>): boolean {
  return side.steps === 0 && sport.steps === 0 && height.steps <= NEAR_HEIGHT_STEPS && level.steps <= NEAR_LEVEL_STEPS;
}

/** Says that no model matches, and what was looked for; null when one does. */
export function noneMatchWords(wanted: ModelWanted, found: readonly Pick<NearModel<unknown>, "isMatch">[]): string | null {
  if (found.some((it) => it.isMatch)) return null;
  if (found.length === 0) return `No model can stand beside this swing: none is kept that was ${factWords("view", wanted.view)}${isSlap(wanted.swingKind) ? " and is a running slap" : ""}.`;
  const tall = wanted.heightM === null ? "" : ` about ${metres(wanted.heightM)} tall`;
  return `No model matches: none is a ${wanted.side}-handed ${wanted.sport} hitter${tall} of level ${levelWords(wanted.level)} or next to it. The nearest stand here first, each with what is otherwise.`;
}

/** Said with every model: it is not a measure. */
export const NOT_A_MARK = "A picture to look at, not a mark to reach.";

/** What is said when a player who is still growing stands beside a grown model; null for every other pair. */
export function besideChildWords(wanted: Pick<ModelWanted, "isAdult">, model: Pick<ModelTagged, "isAdult">): string | null {
  if (wanted.isAdult || !model.isAdult) return null;
  return `The model is grown and the player is still growing: levers and timing differ. ${NOT_A_MARK} No readings are compared.`;
}

/** In what a model is otherwise than what was asked for, in the order in which it counts. */
export function otherwiseWords({ reasons }: Pick<NearModel<unknown>, "reasons">): readonly string[] {
  return reasons.filter(({ isNear }) => !isNear).map(({ words }) => words);
}

/** A level in words: "11 to 12", "grown". */
export function levelWords(level: Level): string {
  return level === "adult" ? "grown" : level.replace("-", " to ");
}

/** A height in words, with feet and inches beside the metres: "1.45 m (4′9″)". */
export function metres(heightM: number): string {
  const inches = Math.round(heightM / 0.0254);
  return `${heightM.toFixed(2)} m (${Math.floor(inches / 12)}′${inches % 12}″)`;
}
