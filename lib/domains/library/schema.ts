import { z } from "zod";
import { LEVELS } from "@/lib/core/age";
import type { RecordProblem } from "@/lib/core/record-problem";

/** The forms of the library's files. Every object is strict: a field nobody knows is refused like one that is missing. */
const id = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "must be lower-case words joined by hyphens");
const words = z.string().trim().min(1, "must say something");
const wordList = z.array(words);
const share = z.number().gt(0, "must lie strictly between 0 and 1").lt(1, "must lie strictly between 0 and 1");
const positive = z.number().positive();
const count = z.int().nonnegative();
const level = z.enum(LEVELS);
const perLevel = <T extends z.ZodType>(value: T) => z.strictObject({ "8-10": value, "11-12": value, "13-14": value, "15-18": value, adult: value });
const file = { schema: z.literal(1), about: words };
const viewName = z.enum(["side", "rear", "front"]);
const sport = z.enum(["both", "baseball", "softball"]);
const slapOnly = z.literal("slap").optional();
const point = z.string().regex(/^[a-z]+(_[fb])?$/, "is no point's name");
const lengthName = z.enum(["T", "F", "Fs", "H", "Ws", "Wh", "Ua", "Fa", "Lb", "earSpan"]);
const comparison = z.enum(["<", "<=", ">", ">=", "="]);
const filterHz = z.union([z.literal(10), z.literal(20)]).nullable();
const pair = z.tuple([z.number(), z.number()]);
const openPair = z.tuple([z.number().nullable(), z.number().nullable()]);
const adultRule = z.enum(["none", "nearby", "in-charge", "operates"]);
const bodyPart = z.enum(["knee", "hip", "groin", "back", "side", "shoulder", "elbow", "wrist", "hand"]);
const spaceM = z.strictObject({ w: positive, l: positive });
const cue = z.strictObject({ text: words, focus: z.enum(["external", "internal", "mixed"]) });

const area = z.strictObject({ id, name: words, question: id.nullable(), covers: words, looksAt: wordList, onlyFor: slapOnly });
const phase = z.strictObject({ id, order: z.int().positive(), name: words, starts: words, ends: words, event: words, view: words });
const event = z.strictObject({
  id, symbol: z.string().regex(/^t_[a-z_]+$/), name: words, phase: id.nullable(), rule: words, otherwise: words, views: z.array(viewName),
  points: z.array(point), filterHz, stillCamera: z.boolean(), uncertainty: words, markedSdSeconds: z.number().nonnegative(), needs: words.optional(),
});
const symptom = z.strictObject({ id, name: words, onlyFor: slapOnly });

const band = z.strictObject({ ok: pair, act: openPair, meaning: words });
const flight = z.literal("limit = 1 - seconds/flight");
const expression = z.union([z.number(), words]);
export const nullRuleForm = z.strictObject({
  left: expression.optional(), op: comparison.optional(), right: expression.optional(), say: words, over: z.literal("window").optional(),
  fact: words.optional(), is: wordList.optional(), checkpoint: id.optional(),
});
const namedValue = z.strictObject({
  id, name: words, unit: words, formula: words, points: z.array(point), scales: z.array(lengthName).optional(), note: words.optional(),
  events: z.array(id).optional(), okMin: z.number().optional(), okMax: z.number().optional(), stillCamera: z.boolean().optional(),
});
export const checkpointForm = z.strictObject({
  id, name: words, area: id, phase: id, scope: z.enum(["clip", "swing"]), good: words, formulaId: id, formulaVersion: z.int().positive(),
  views: z.strictObject({ primary: viewName, measured: z.array(viewName).min(1), eye: z.array(viewName) }),
  formula: words, points: z.array(point), scalePoints: z.partialRecord(lengthName, z.array(point)), events: z.array(id).min(1),
  window: z.strictObject({ from: expression, to: expression, frames: z.int().positive().optional() }).nullable(),
  filterHz, stillCamera: z.boolean(), estimate: z.enum(["plain", "folded", "extreme", "crossing", "time"]), unit: words, sign: words,
  band: band.nullable(), bandSource: words, bandYouth: z.strictObject({ ok: pair, act: openPair, appliesTo: words }).optional(),
  bandOfFlight: z.strictObject({ form: flight, referenceFlightSeconds: positive, okSeconds: pair, actSeconds: pair, meaning: words }).optional(),
  named: z.array(namedValue), nullWhen: z.array(nullRuleForm), misleads: wordList.min(1), minFps: positive,
  maxCameraOffDeg: z.union([z.literal(6), z.literal(15)]).nullable(), reliability2d: z.enum(["high", "medium", "low"]),
  words: z.array(z.strictObject({ below: expression.optional(), inside: z.literal("ok").optional(), above: expression.optional(), say: words })).optional(),
  pointsElse: z.array(z.strictObject({ insteadOf: z.array(point), use: z.array(point) })).optional(),
  censor: z.strictObject({ above: z.number().optional(), below: z.number().optional(), say: words, verdict: words }).optional(),
  folded: z.boolean().optional(), symbols: z.record(z.string(), words).optional(), ownBaselineOnly: z.boolean().optional(), informs: z.array(id).optional(),
});

export const faultForm = z.strictObject({
  id, name: words, synonyms: wordList, area: id, phase: id, sport, looks: z.strictObject({ side: words, rear: words, front: words }),
  whyItHurts: words, symptoms: z.array(z.strictObject({ id, judgement: share, strength: share })),
  checkpoints: z.array(z.strictObject({
    checkpoint: id, op: z.enum(["<", ">"]), value: z.number(), weight: positive.max(1), valueYouth: z.number().optional(),
    valueOfFlight: z.strictObject({ form: flight, seconds: positive }).optional(),
  })),
  commonAt: perLevel(z.int().min(0).max(3)), lookAlikes: z.array(z.strictObject({ fault: id.nullable(), other: words.nullable(), tell: words })),
  cues: z.array(cue).min(3, "must hold three cues at least"), playerWording: words, safety: words.nullable(), eyeOnly: words.optional(), onlyFor: slapOnly,
  noDrillAt: z.partialRecord(level, words).optional(),
});

const nodeShared = { id, onlyFor: slapOnly };
const causeShared = {
  ...nodeShared, type: z.enum(["approach", "equipment", "instruction", "perceptual", "physical", "setup", "timing"]), name: words,
  howToCheck: words, firstAction: words, referToMedical: z.boolean(), gate: z.boolean().optional(),
};
const leak = { leak: perLevel(share), leakExplanation: words };
export const causeNodeForm = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("fault"), ...nodeShared, ...leak }),
  z.strictObject({ kind: z.literal("root"), ...causeShared, prior: perLevel(share) }),
  z.strictObject({ kind: z.literal("intermediate"), ...causeShared, ...leak }),
]);
export const causeEdgeForm = z.strictObject({ id, cause: id, effect: id, judgement: share, strength: share, mechanism: words });
const rate = z.strictObject({ base: share, slope: z.number(), formula: words });
const workedCase = z.strictObject({
  id, words, level, seen: z.array(id), notSeen: z.array(id), symptoms: z.array(id).optional(), readings: z.record(id, z.number()).optional(),
  expect: z.strictObject({ first: z.array(id), askFirst: z.array(id), question: id.nullable().optional(), inOrder: z.boolean() }),
});
const ranking = z.strictObject({
  words, reach: words, w: words, score: words, scoreWeights: z.strictObject({ symptoms: positive, self: positive }), scoreNote: words, lift: words,
  gates: z.array(id), gatesNote: words, rankedKinds: z.array(z.enum(["fault", "root", "intermediate"])), minProbability: share, minProbabilityNote: words,
  nearTie: z.strictObject({ share, words }), changeable: words, maxShown: z.int().positive(), maxFocus: z.literal(2), maxWords: words,
  askFirst: z.strictObject({ kinds: wordList, maxShown: z.int().positive(), words }), onlyFor: words, workedCases: z.array(workedCase), workedCasesNote: words,
});
const causesFile = z.strictObject({
  ...file,
  model: z.strictObject({
    kind: words, formula: words, roots: words, symptoms: words, symptomLeak: share, strengths: words, leaks: words, onlyFor: words,
    inference: z.strictObject({ words, widthTypical: z.array(count), widthThinEvidence: z.array(count), widthCap: z.int().positive(), beyondCap: words }),
  }),
  evidence: z.strictObject({
    words, reliability: z.strictObject({ high: share.or(z.literal(1)), medium: share, low: share }), d: words, sensitivity: rate, falsePositive: rate,
    p: words, likelihoodRatio: words, combine: words, clamp: pair, coachCall: words, notVisible: z.literal(1), answers: words, whichReadings: words,
  }),
  ranking, nodes: z.array(causeNodeForm), edges: z.array(causeEdgeForm),
});

const answer = z.strictObject({ id, words, base: share, likelihoodRatios: z.record(id, positive) });
export const questionForm = z.strictObject({
  id, kind: z.enum(["ask", "test", "screen", "clip", "tally"]), to: z.enum(["player", "family", "coach"]), words, costSeconds: positive,
  needs: z.strictObject({ gear: z.array(id), spaceM: spaceM.nullable(), adult: adultRule, partnerCount: z.int().min(0).max(2) }),
  safety: words.nullable(), standsDays: count, bearsOn: z.array(id).min(1).max(4), gate: z.boolean().optional(), answers: z.array(answer).min(2),
  view: viewName.optional(), minFps: positive.optional(), onlyFor: slapOnly,
});

export const drillForm = z.strictObject({
  id, name: words, sport, setup: z.enum(["dry", "tee", "toss", "live", "machine", "throw", "strength", "mobility"]), purpose: words,
  faults: z.array(z.strictObject({ fault: id, effect: share, role: z.enum(["primary", "secondary"]) })).min(1),
  steps: wordList.min(3, "must be three steps at least").max(6, "must be six steps at most"), cues: z.array(cue).min(1, "must hold one cue at least"), equipment: wordList, gear: z.array(id), space: words, spaceM, needsCage: z.boolean(),
  partner: words, partnerCount: z.int().min(0).max(2), adult: adultRule,
  dose: z.strictObject({ minutes: positive.max(60), sets: z.int().min(1).max(10), reps: z.int().min(1).max(50), fullSwings: count.max(100), effortPercent: count.max(100) }),
  levels: z.array(level).min(1), minAge: z.int().min(8).max(99), next: id.nullable(), easier: id.nullable(), hardBalls: z.boolean(), helmet: z.boolean(),
  safety: wordList.min(1, "must say how it is done safely"), avoidIf: wordList, avoidParts: z.array(bodyPart),
  worked: z.strictObject({ observe: words, checkpoints: z.array(z.strictObject({ checkpoint: id, move: z.enum(["up", "down", "toward-band"]) })) }),
  maxSessionsPerWeek: z.int().min(1).max(7).optional(), requiresDrill: z.array(id).optional(), faceGuardUnderAge: z.int().positive().optional(),
  avoidCauses: z.array(id).optional(), onlyFor: slapOnly,
});

const gearFile = z.strictObject({
  ...file, rule: words, items: z.array(z.strictObject({ id, name: words })),
  groups: z.array(z.strictObject({ id, name: words, anyOf: z.array(id).min(2) })),
});
const swingRow = z.strictObject({ level, perSession: count, perDay: count, perWeek: count, homePerDay: z.tuple([count, count]) });
const heatRow = z.strictObject({ from: z.number().optional(), to: z.number().optional(), above: z.number().optional(), below: z.number().optional(), do: words });
const ages = z.tuple([count, count]);
const loadsFile = z.strictObject({
  ...file,
  swings: z.strictObject({
    source: words, note: words, counts: words, rows: z.array(swingRow), underEight: words, restEverySwings: positive, restSeconds: positive,
    noSwingDaysPerWeek: z.int().min(2).max(7), week: words, growthPerWeekPercent: positive, growthNote: words, overCap: words, afterIncident: words,
  }),
  throwing: z.strictObject({
    source: words, asOf: words, checkBefore: words, dailyMax: z.array(z.strictObject({ ages, pitches: count })),
    restDays: z.array(z.strictObject({ ages, rows: z.array(z.tuple([count, count.nullable(), count])) })), also: wordList, outside: words,
    tests: z.array(z.strictObject({ age: count, pitches: count, restDays: count.optional(), overLimit: z.boolean().optional() })),
  }),
  overall: z.strictObject({ source: words, rows: z.array(z.strictObject({ id, words, test: z.strictObject({ age: count, ok: z.number(), flag: z.number() }).optional() })) }),
  heat: z.strictObject({
    formula: words, tests: z.array(z.strictObject({ wet: z.number(), globe: z.number(), air: z.number(), wbgtC: z.number(), wbgtF: z.number() })),
    scales: z.array(z.strictObject({ id, source: words, unit: z.enum(["C", "F"]), rows: z.array(heatRow) })), wording: words, rule: words,
  }),
  lightning: z.strictObject({ source: words, rows: z.array(z.strictObject({ id, words, minutes: positive.optional() })) }),
});

const term = z.strictObject({ id, words });
const terms = z.array(term).min(1);
const facts = z.record(z.string(), z.array(words));
const limit = z.strictObject({ sdAtLeast: positive, widthAtLeast: positive });
const tallySymptom = z.strictObject({
  symptom: id, of: facts, count: facts, seenFrom: share, notSeenTo: share, words, needs: wordList.optional(),
  alsoAtLeast: z.strictObject({ count: facts, share }).optional(), difference: z.strictObject({ from: facts, minus: facts }).optional(),
});
const termsFile = z.strictObject({
  ...file,
  lists: z.strictObject({
    view: terms, task: terms, effort: z.array(term.extend({ percent: pair })), pitchHeight: terms, pitchSide: terms, pitchSpeed: terms,
    season: terms, sport: terms, side: terms, swingKind: terms, batClass: terms, consentUse: terms, observation: terms, verdict: terms, size: terms,
    likelihood: terms, change: terms, trustReason: z.array(term.extend({ effect: z.enum(["null", "grey", "grey-comparison", "note"]) })),
  }),
  trustEffects: z.strictObject({ null: words, grey: words, "grey-comparison": words, note: words }), seasonNote: words,
  verdictRule: z.strictObject({
    words, talkAbout: z.strictObject({ pTalkAtLeast: share }), fine: z.strictObject({ pFineAtLeast: share }),
    cannotTell: z.strictObject({ sdOverOkWidthMoreThan: positive, words }), watch: words, order: z.array(id), censored: words, ownBaselineOnly: words,
  }),
  sizeRule: z.strictObject({ words, large: limit, clear: limit, small: words, both: words, valueWords: words }),
  likelihoodRule: z.strictObject({ likely: z.strictObject({ from: share }), maybe: z.strictObject({ from: share }), unlikely: z.strictObject({ below: share }), words }),
  steadyRule: z.strictObject({
    draws: z.int().positive(), seed: z.int(), sdLogOdds: positive, drawn: words, steadyFrom: share,
    words: z.strictObject({ steady: words, depends: words }), rule: words,
  }),
  comparableRule: z.strictObject({ same: wordList, viewSet: words, lastN: z.int().positive(), withinDays: z.int().positive(), from: words, unknown: words, excludes: words }),
  habitRule: z.strictObject({ seenAtLeast: z.int().positive(), ofLast: z.int().positive(), words, short: words }),
  changeRule: z.strictObject({
    sW: words, difference: words, minimalDetectable: words, changed: words, usualSpread: words, cannotTell: words, direction: words, day: words,
  }),
  slapRule: z.strictObject({ slapper: words, swing: words, power: words }),
  tally: z.strictObject({
    words, categories: z.strictObject({ direction: terms, height: terms, quality: terms, timing: terms, spot: terms, curve: terms, act: terms }),
    facts: wordList, needed: wordList, optional: wordList, minimum: z.int().positive(), window: words, rule: words, symptoms: z.array(tallySymptom),
  }),
});

const conventionTexts = z.union([words, z.record(z.string(), z.union([words, z.number(), z.array(words)]))]);
const conventionsFile = z.strictObject({
  ...file,
  conventions: z.looseObject({
    points: z.array(point).min(1),
    lengths: z.array(z.strictObject({ id: lengthName, points: z.array(point), views: z.array(viewName), over: z.enum(["stance frames", "clip"]), by: words })),
    facts: z.array(z.strictObject({
      id: z.string().regex(/^[a-z][a-zA-Z-]*$/), of: z.enum(["clip", "file", "swing"]), list: words.optional(),
      type: z.enum(["boolean", "number"]).optional(), values: wordList.optional(), words: words.optional(),
    })),
    levels: z.array(z.strictObject({ id: level, fromAge: count, toAge: count.nullable(), alsoUnder: words.optional(), note: words.optional() })).length(5),
    youth: z.strictObject({ underAge: z.literal(13), words }),
    age: words, frontBack: words, views: conventionTexts, axes: conventionTexts,
    nullWhen: z.strictObject({ words, ops: z.array(comparison), functions: z.record(z.string(), words), names: words }),
  }),
});

const ageRange = z.strictObject({ age: words, range: pair });
const fitFile = z.strictObject({
  schema: z.literal(1),
  pitchTiming: z.strictObject({
    formula: words, use: words,
    rows: z.array(z.strictObject({
      sport: z.enum(["baseball", "softball"]), level: words, rubberFt: positive, releaseAheadFt: positive, speedMph: pair, flightSeconds: pair, ball: words,
    })),
    drag: z.strictObject({ airDensity: positive, cd: positive, kPerM: z.record(words, positive), source: words }),
  }),
  batFit: z.strictObject({
    lengthInches: z.array(ageRange), drop: z.strictObject({ meaning: words, baseball: z.array(ageRange), fastpitch: z.array(ageRange) }), fitTests: wordList, rules: words,
  }),
});

/** Form of every file of the library, by the file's name. */
export const libraryFiles = {
  areas: z.strictObject({
    ...file, threeQuestions: z.array(z.strictObject({ id, question: words, areas: z.array(id).min(1) })), threeQuestionsNote: words, areas: z.array(area),
  }),
  phases: z.strictObject({ ...file, phases: z.array(phase), events: z.array(event), eventsNote: words }),
  checkpoints: z.strictObject({
    ...file, fields: z.record(z.string(), words),
    slap: z.strictObject({ words, fact: words, is: z.array(id), say: words, off: z.array(id), on: z.array(id), ownBaselineOnly: z.array(id) }),
    checkpoints: z.array(checkpointForm),
  }),
  faults: z.strictObject({ ...file, faults: z.array(faultForm) }),
  symptoms: z.strictObject({ ...file, symptoms: z.array(symptom) }),
  causes: causesFile,
  questions: z.strictObject({
    ...file, source: words, fields: z.record(z.string(), words), questions: z.array(questionForm),
    method: z.strictObject({ likelihood: words, scores: words, value: words, costWeight: words, choose: words, minValue: positive, pain: words, shows: words }),
  }),
  drills: z.strictObject({ ...file, fields: z.record(z.string(), words), drills: z.array(drillForm) }),
  gear: gearFile,
  loads: loadsFile,
  terms: termsFile,
  conventions: conventionsFile,
  fit_and_timing: fitFile,
} as const;

export type LibraryFile = keyof typeof libraryFiles;
/** The whole library as read: what an edition's snapshot holds. */
export type LibraryParts = { readonly [F in LibraryFile]: z.infer<(typeof libraryFiles)[F]> };
export type CheckpointRecord = z.infer<typeof checkpointForm>;
export type FaultRecord = z.infer<typeof faultForm>;
export type DrillRecord = z.infer<typeof drillForm>;
export type CauseNodeRecord = z.infer<typeof causeNodeForm>;
export type CauseEdgeRecord = z.infer<typeof causeEdgeForm>;
export type QuestionRecord = z.infer<typeof questionForm>;
export type NullRule = z.infer<typeof nullRuleForm>;

/** The id of the innermost record on a path through a file's JSON, and the path of the field below it. */
function placeOf(json: unknown, path: readonly PropertyKey[]): { id: string; field: string } {
  let [node, recordId, from] = [json, "", 0];
  path.forEach((step, depth) => {
    node = typeof node === "object" && node !== null ? Reflect.get(node, step) : undefined;
    const found = depth < 3 && typeof node === "object" && node !== null ? Reflect.get(node, "id") : undefined;
    if (typeof found === "string" && recordId === "") [recordId, from] = [found, depth + 1];
  });
  return { id: recordId, field: path.slice(from).map(String).join(".") };
}

/** What zod found, as problems that name file, record and field. */
export function problemsOf(fileName: string, json: unknown, error: z.ZodError): RecordProblem[] {
  return error.issues.flatMap((issue) => {
    const { id: recordId, field } = placeOf(json, issue.path);
    if (issue.code !== "unrecognized_keys") return [{ file: fileName, id: recordId, field, words: `${issue.message}.` }];
    return issue.keys.map((key) => {
      return { file: fileName, id: recordId, field: [field, key].filter(Boolean).join("."), words: "No such field is known here." };
    });
  });
}

/** Reads the library's files (parsed JSON by name): the whole library, or every problem of form with its record and field. */
export function readLibrary(files: Readonly<Record<string, unknown>>): { parts: LibraryParts | null; problems: RecordProblem[] } {
  const problems: RecordProblem[] = [];
  const read = <F extends LibraryFile>(name: F) => {
    const outcome = libraryFiles[name].safeParse(files[name]);
    if (outcome.success) return outcome.data;
    if (files[name] === undefined) problems.push({ file: name, id: "", field: "", words: "The file is not there." });
    else problems.push(...problemsOf(name, files[name], outcome.error));
    return null;
  };
  const names = Object.keys(libraryFiles) as LibraryFile[];
  const parts = Object.fromEntries(names.map((name) => [name, read(name)]));
  for (const name of Object.keys(files)) {
    if (!(name in libraryFiles)) problems.push({ file: name, id: "", field: "", words: "The library has no such part." });
  }
  return { parts: problems.length === 0 ? (parts as LibraryParts) : null, problems };
}

/** Words as a form sends them: spaces at the ends do not count. */
const typed = (most: number) => z.string().trim().max(most, `Please keep this under ${most} letters.`);
const typedWords = typed(2000).min(1, "This cannot stay empty.");
/** One entry a line; empty lines do not count. */
const typedLines = typed(6000).transform((text) => text.split(/\r?\n/).map((line) => line.trim()).filter((line) => line !== ""));
const typedNumber = (low: number, high: number) =>
  z.coerce.number({ error: "Please write a number." }).min(low, `At least ${low}.`).max(high, `At most ${high}.`);
const typedList = z.array(typed(2000)).max(40);
const reasonWords = typed(1000).refine((text) => text.split(/\s+/).filter(Boolean).length >= 3, "Please say in at least three words why.");

/** What a form may send of a record. A field that is not sent stays as it is; which record has which field is a rule. */
const changeFields = {
  name: typedWords.optional(),
  purpose: typedWords.optional(),
  steps: typedLines.optional(),
  cueText: typedList.optional(),
  cueFocus: z.array(z.enum(["external", "internal", "mixed"])).max(40).optional(),
  equipment: typedLines.optional(),
  space: typedWords.optional(),
  minutes: typedNumber(0.5, 60).optional(),
  sets: typedNumber(1, 10).pipe(z.int("A whole number, please.")).optional(),
  reps: typedNumber(1, 50).pipe(z.int("A whole number, please.")).optional(),
  fullSwings: typedNumber(0, 100).pipe(z.int("A whole number, please.")).optional(),
  effortPercent: typedNumber(0, 100).pipe(z.int("A whole number, please.")).optional(),
  safety: typed(6000).optional(),
  minAge: typedNumber(8, 99).pipe(z.int("A whole number, please.")).optional(),
  avoidIf: typedLines.optional(),
  avoidParts: z.array(bodyPart).optional(),
  /** Sent with the boxes, so that no box ticked is an answer and not a field that was not sent. */
  hasAvoidParts: z.literal("yes").optional(),
  maxSessionsPerWeek: z.union([z.literal(""), typedNumber(1, 7).pipe(z.int("A whole number, please."))]).optional(),
  synonyms: typedLines.optional(),
  looksSide: typedWords.optional(),
  looksRear: typedWords.optional(),
  looksFront: typedWords.optional(),
  whyItHurts: typedWords.optional(),
  tell: z.array(typedWords).optional(),
  playerWording: typedWords.optional(),
};

/** Lists whose entries are fields of their own, so that a refused form gives each one back: "tell0", "tell1" become `tell`. */
function gathered(raw: unknown): unknown {
  if (typeof raw !== "object" || raw === null) return raw;
  const lists: Record<string, unknown[]> = {};
  const others: [string, unknown][] = [];
  for (const [key, value] of Object.entries(raw)) {
    const [, list, place] = /^(cueText|cueFocus|tell)([0-9]|1[0-9])$/.exec(key) ?? [];
    if (list !== undefined) (lists[list] ??= [])[Number(place)] = value;
    else if (key.startsWith("avoidPart-")) (lists.avoidParts ??= []).push(value);
    else others.push([key, value]);
  }
  return { ...Object.fromEntries(others), ...lists };
}

/** A change of one record as its form sends it: the edition it was written against, its fields, and why. */
export const proposeChangeForm = z.preprocess(
  gathered,
  z.strictObject({ subject: z.enum(["drill", "fault"]), recordId: id, baseEditionId: z.uuid(), reason: reasonWords, ...changeFields }),
);
/** A new drill, written from one that is in force: what is not sent is as it is there. */
export const proposeNewDrillForm = z.preprocess(
  gathered,
  z.strictObject({ likeId: id, baseEditionId: z.uuid(), reason: reasonWords, ...changeFields, name: typedWords }),
);
export type ChangeFields = Pick<z.infer<typeof proposeChangeForm>, keyof typeof changeFields>;
export type ProposeChangeInput = z.infer<typeof proposeChangeForm>;
export type ProposeNewDrillInput = z.infer<typeof proposeNewDrillForm>;

export const proposalIdForm = z.object({ proposalId: z.uuid() });
export const declineProposalForm = z.object({
  proposalId: z.uuid(), words: typed(1000).refine((text) => text.split(/\s+/).filter(Boolean).length >= 3, "Please say in at least three words why not."),
});
/** A patch as it is stored. */
export const patchForm = z.record(z.string(), z.strictObject({ was: z.unknown(), becomes: z.unknown() }));
export const PROPOSAL_STATES = ["open", "approved", "declined", "withdrawn"] as const;
export type ProposalState = (typeof PROPOSAL_STATES)[number];
export const listProposalsForm = z.object({ state: z.enum(PROPOSAL_STATES).default("open"), after: z.uuid().optional() });
export const listEditionsForm = z.object({ before: z.coerce.number().int().positive().optional() });
export const recordIdForm = z.object({ id });
export const recordForChangeForm = z.object({ subject: z.enum(["drill", "fault"]), id });
export const searchForm = z.object({ text: z.string().trim().max(200).default("") });
