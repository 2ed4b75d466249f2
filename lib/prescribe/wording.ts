/** The most words that a note has, with its cue. Common practice, no source. */
export const MOST_NOTE_WORDS = 150;
/** Below this age a note holds no numbers. Common practice, no source. */
export const NUMBERS_FROM_YEARS = 11;
/** A longer sentence is read twice. Common practice, no source. */
const LONG_SENTENCE_WORDS = 25;
/** More parts of the body than these in one sentence are more than one thing. Common practice, no source. */
const MOST_PARTS_IN_A_SENTENCE = 2;

/** The parts of a note that the family reads. */
export interface NoteWords {
  readonly keptWell: string;
  readonly oneThing: string;
  readonly why: string;
  readonly cue: string;
  readonly forFamily: string;
}
export type NotePart = keyof NoteWords;

export const NOTE_PARTS = ["keptWell", "oneThing", "why", "cue", "forFamily"] as const satisfies readonly NotePart[];

/**
 * Something to say about what was written: which words, and another way. A hard one keeps the note from being kept and
 * sent; the others are advice on style, and the coach decides.
 */
export interface Remark {
  readonly part: NotePart;
  readonly words: string;
  readonly isHard: boolean;
}

/** Whom a note is about, as far as its words go. */
export interface NoteReader {
  readonly givenName: string;
  readonly ageYears: number;
  /** Names of faults other than the one in focus. */
  readonly otherFaults: readonly string[];
}

/** Words that stay out whatever stands around them, with another way to say it. All of it is common practice, no source. */
const KEPT_OUT: readonly { readonly words: RegExp; readonly instead: string }[] = [
  { words: /\b(?:bad|poor)(?:ly)?\b|\bwrong(?:ly)?\b(?! (?:one|ball|pitch|colou?r)\b)|\b(?:worse|worst|terribl[ey]|awful(?:ly)?|ugly|useless|pathetic|hopeless|disappoint(?:s|ed|ing|ment)?|ashamed|embarrass(?:ed|ing)?)\b/giu, instead: "Say what happened, or what to do." },
  // A band is fixed to a post; a child is not.
  { words: /\bfix(?:es|ing)? (?:you|your|his|her|their|its?|this|that)\b|\b(?:I|we|to|will|must|let['’]?s|let us|be|get|gets|need|needs) fix(?:ed|ing)?\b/giu, instead: "Say “build” or “next”." },
  { words: /\b(?:faults?|faulty|mistakes?|errors?|fail(?:s|ed|ing|ures?)?|flaws?|problem child)\b/giu, instead: "Say what happened, or what to do next." },
  // A drill may be scored as a game is; a swing and a child are not.
  {
    words: /\b(?:swing|low|high|total|overall) scores?\b|\bscores? (?:is|are|was|were|of)\b|\bscor(?:es?|ed|ing) (?:you|your|low|high|\d+ (?:of|out))\b|\b(?:rank(?:s|ed|ing)?|percentiles?|league tables?)\b/giu,
    instead: "Say what changed against the own best.",
  },
  {
    words: /\b(?:lazy|laziness|clumsy|weak(?:er|est|ness|nesses)?|stupid|dumb|sloppy|careless(?:ly)?|uncoordinated|unathletic|untalented|hothead|klutz|losers?|quitters?|slackers?|wimps?|cry-?bab(?:y|ies)|show-?offs?)\b/giu,
    instead: "Say what was done, as anybody could see it.",
  },
  { words: /\b(?:chubby|skinny|overweight|obese|scrawny|pudgy|tubby)\b/giu, instead: "Nothing is said about how a body looks." },
  { words: /\blike (?:a|an old|some) (?:girl|boy|baby|grandm(?:a|other)|sissy)\b/giu, instead: "Say what the swing does." },
];

const INJURY_NAMES =
  /\b(tend[io]n[io]tis|sprain(?:s|ed)?|strain(?:s|ed)?|fractur(?:es?|ed)|concussion|dislocat(?:ed|ion)|torn|ruptur(?:es?|ed)|hernia|bursitis|impingement|stress reaction|growth[- ]plate|little league (?:elbow|shoulder))\b/i;
/** What is said of a person and not of a swing. Closed: a word that is not here passes. Common practice, no source. */
const LABELS =
  "slow|stiff|tense|scared|afraid|timid|shy|nervous|awkward|distracted|unfocused|stubborn|difficult|impatient|small|short|tiny|fat|thin|heavy|behind|beneath|below average|average|unable|incapable|unwilling|no good";
const COMPARED =
  /\b(?:better|slower|faster|stronger|quicker|smaller|taller|later) than (?:you\b|your (?:brother|sister|twin|friends?|team(?:-?mates?)?|classmates?)|(?:the|all|any|most) other|others\b|anyone|anybody|everyone|everybody|most (?:kids|children|players|hitters|boys|girls))|\b(?:the )?best (?:in|on|of) (?:the|your|our) (?:team|group|class|squad|academy)\b|\bunlike (?:the )?other|\b(?:other|older|younger) (?:kids|children|players|hitters|boys|girls)\b|\bbehind (?:the )?(?:others|other|rest)\b/iu;
const LIST_LINE = /^\s*(?:[-*•–]|\d+[.)])\s/m;
const LIST_INLINE = /(?:^|\s)\(?(?:1|a)[.)]\s.*\s\(?(?:2|b)[.)]\s/su;
const MEASURES = /\b(?:degrees?|per ?cent|miles? an hour|mph|milliseconds?|hundredths?|millimet(?:er|re)s?|centimet(?:er|re)s?)\b/iu;
const TELLS_WHAT_NOT = /\b(?:don['’]?t|do not|never|stop)\b/i;
const LOOKS_BACK = /\b(?:should|could) have\b|\bif only\b/iu;
/** Praise that holds only as long as things go well. */
const GIFTS = /\b(?:talent(?:ed)?|gifted|a natural|born hitter|genius)\b/iu;
const PARTS_OF_A_SWING = /\b(?:head|eyes|shoulders?|chest|hands?|elbows?|wrists?|arms?|hips?|belt|knees?|legs?|foot|feet|stride|barrel|bat)\b/giu;

export function countWords(...texts: readonly string[]): number {
  return texts.join(" ").split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
}

export function noteWordCount(note: NoteWords): number {
  return countWords(...NOTE_PARTS.map((part) => note[part]));
}

/** What calls the person something: "You are slow", "Ines is too early", "she's an arm hitter". */
function labelOf(text: string, givenName: string): string | null {
  const name = givenName.replace(/[^\p{L}\p{N}' -]/gu, "");
  const who = ["you", "he", "she", "they", ...(name ? [name] : [])].join("|");
  const isSaid = `(?<![\\p{L}])(?:${who})(?:\\s+(?:are|is|were|was|look|looks|seem|seems)|['’](?:re|s))\\s+(?:(?:still|just|so|very|really|a bit|a little|pretty)\\s+)*`;
  const label = new RegExp(`${isSaid}(?:${LABELS})(?![\\p{L}])`, "iu").exec(text)?.[0].trim();
  if (label) return label;
  const kind = new RegExp(`${isSaid}(?:an?|too|not|never|always)\\s(?!welcome|alone)`, "iu").exec(text)?.[0].trim();
  return kind ? `${kind} …` : null;
}

function otherFaultsIn(text: string, names: readonly string[]): string[] {
  const low = text.toLowerCase();
  return names.filter((name) => low.includes(name.toLowerCase()));
}

const sentencesOf = (text: string) => text.split(/[.!?]+/);
const staysOut = (count: number) => (count === 1 ? "stays" : "stay");
const quoted = (found: readonly string[]) => [...new Set(found.map((word) => `“${word.toLowerCase()}”`))].join(" and ");

function keptOut(text: string): string[] {
  return KEPT_OUT.flatMap(({ words, instead }) => {
    const found = text.match(words) ?? [];
    return found.length > 0 ? [`${quoted(found)} ${staysOut(new Set(found.map((word) => word.toLowerCase())).size)} out of what a family reads. ${instead}`] : [];
  });
}

/** What may not be said to a family, a note or not, in sentences: each names the words and another way. */
export function refusalsOf(text: string, reader: NoteReader): string[] {
  const said = keptOut(text);
  const injury = INJURY_NAMES.exec(text)?.[0];
  if (injury) said.push(`“${injury}” is for a licensed clinician to say. Name the part of the body only.`);
  const label = labelOf(text, reader.givenName);
  if (label) said.push(`“${label}” names the person. Say what the swing does: “the turn starts a blink early”.`);
  const compared = COMPARED.exec(text)?.[0];
  if (compared) said.push(`“${compared}” holds the player against others. Say what changed against the own swings.`);
  if (LIST_LINE.test(text) || LIST_INLINE.test(text)) said.push("It is about one thing. Write sentences, no list.");
  if (reader.ageYears < NUMBERS_FROM_YEARS) {
    const number = /\d[\d.,]*/.exec(text)?.[0] ?? MEASURES.exec(text)?.[0];
    if (number) said.push(`No numbers for a player under ${NUMBERS_FROM_YEARS}: “${number}”. Say it with a picture, or leave it out.`);
  }
  const others = otherFaultsIn(text, reader.otherFaults);
  if (others.length > 1) said.push(`This speaks of “${others[0]}” and “${others[1]}” too. One thing is enough.`);
  return said;
}

/** What could be said better, in sentences. */
function adviceOn(part: NotePart, text: string): string[] {
  const said: string[] = [];
  const not = part === "forFamily" ? undefined : TELLS_WHAT_NOT.exec(text)?.[0];
  if (not) said.push(`“${not}” says what not to do. What to do is easier to follow.`);
  const back = LOOKS_BACK.exec(text)?.[0];
  if (back) said.push(`“${back}” looks back. Say what comes next.`);
  const gift = GIFTS.exec(text)?.[0];
  if (gift) said.push(`“${gift}” praises what one cannot practise. Say what was done.`);
  const many = part === "oneThing" ? sentencesOf(text).map((sentence) => new Set(sentence.toLowerCase().match(PARTS_OF_A_SWING))).find((parts) => parts.size > MOST_PARTS_IN_A_SENTENCE) : undefined;
  if (many) said.push(`One sentence speaks of ${[...many].join(", ")}. One of them is enough.`);
  if (sentencesOf(text).some((sentence) => countWords(sentence) > LONG_SENTENCE_WORDS)) said.push("One sentence is long. Two short ones are read more easily.");
  return said;
}

/** What is to be said about one part; empty when nothing is. */
export function remarksOnPart(part: NotePart, text: string, reader: NoteReader): Remark[] {
  return [
    ...refusalsOf(text, reader).map((words) => ({ part, words, isHard: true })),
    ...adviceOn(part, text).map((words) => ({ part, words, isHard: false })),
  ];
}

/** "151 of 150 words: 1 too many." */
export function wordCountWords(count: number): string {
  const over = count - MOST_NOTE_WORDS;
  return `${count} of ${MOST_NOTE_WORDS} words${over > 0 ? `: ${over} too many` : ""}, with the cue.`;
}

/** What is to be said about a whole note, part by part. */
export function remarksOn(note: NoteWords, reader: NoteReader): Remark[] {
  const remarks = NOTE_PARTS.flatMap((part) => remarksOnPart(part, note[part], reader));
  const count = noteWordCount(note);
  if (count > MOST_NOTE_WORDS) {
    const longest = (["keptWell", "oneThing", "why", "forFamily"] as const).reduce((most, part) => (countWords(note[part]) > countWords(note[most]) ? part : most));
    remarks.push({ part: longest, isHard: true, words: `The note has ${count} words, ${count - MOST_NOTE_WORDS} more than the ${MOST_NOTE_WORDS} that are read at home. Nothing was cut; this part is the longest.` });
  }
  return remarks;
}

const MISSING: readonly (readonly [NotePart, string])[] = [
  ["keptWell", "Say first what was kept well."],
  ["oneThing", "Say the one thing to work on."],
  ["why", "Say why, in one sentence."],
  ["cue", "Choose a cue."],
];

/** What a note still lacks before it can be sent, first things first. */
export function missingParts(note: NoteWords): { readonly part: NotePart; readonly words: string }[] {
  return MISSING.flatMap(([part, words]) => (note[part].trim() === "" ? [{ part, words }] : []));
}
