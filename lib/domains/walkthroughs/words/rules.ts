import webvtt from "webvtt-parser";
import characterNames from "webvtt-parser/html-entities.json";
import type { Cue } from "../rules";

/** What came of reading a file of captions: the words, or why it cannot be read. */
export type ReadCaptions = { readonly cues: readonly Cue[]; readonly problem: null } | { readonly cues: null; readonly problem: string };

const MOST_CUES = 2000;
const MOST_CUE_LETTERS = 500;

/**
 * Reads captions in WebVTT (W3C, "WebVTT: The Web Video Text Tracks Format", sections 4 and 6), by the parser of the W3C's own
 * validator. Words are kept, who speaks stands before them; styles, regions and places on the picture are left out, since the
 * page decides how captions look. A file that the validator faults is refused with the line.
 */
export function readCaptions(text: string): ReadCaptions {
  const { cues, errors } = new webvtt.WebVTTParser(characterNames).parse(withoutPlaces(text), "subtitles/captions/descriptions");
  const [first] = errors;
  if (first) return { cues: null, problem: `The captions cannot be read at line ${first.line}: ${first.message}` };
  const kept = cues.flatMap((it): Cue[] => {
    const words = wordsOf(it.tree.children).replace(/[ \t]*\n[ \t]*/g, "\n").trim();
    return words === "" ? [] : [{ fromMs: Math.round(it.startTime * 1000), toMs: Math.round(it.endTime * 1000), text: words }];
  });
  if (kept.length > MOST_CUES) return { cues: null, problem: `More than ${MOST_CUES} lines of captions cannot be kept.` };
  if (kept.some((it) => it.text.length > MOST_CUE_LETTERS)) return { cues: null, problem: `A caption may hold ${MOST_CUE_LETTERS} letters at most.` };
  return { cues: kept.sort(inOrder), problem: null };
}

/** By when they begin, then by when they end: the parser turns those that begin together round. */
const inOrder = (a: Cue, b: Cue) => a.fromMs - b.fromMs || a.toMs - b.toMs || (a.text < b.text ? -1 : 1);

/** Without regions and the places of cues, which are not kept and of which the parser knows only some. Line numbers stay. */
function withoutPlaces(text: string): string {
  let isRegion = false;
  let isCueSeen = false;
  return text
    .split(/\r\n|\r|\n/)
    .map((line) => {
      isCueSeen ||= line.includes("-->");
      if (!isCueSeen && /^REGION[ \t]*$/.test(line)) isRegion = true;
      else if (line === "") isRegion = false;
      return isRegion ? "" : line.replace(/^([\d:.]+[ \t]+-->[ \t]+[\d:.]+)[ \t].*$/, "$1");
    })
    .join("\n");
}

interface Node {
  readonly type: string;
  readonly value?: string;
  readonly name?: string;
  readonly children?: readonly Node[];
}

function wordsOf(nodes: readonly Node[]): string {
  return nodes
    .map((node) => {
      if (node.type === "text") return node.value ?? "";
      if (node.type !== "object") return "";
      // Ruby text explains the word before it.
      const inner = wordsOf(node.children ?? []);
      if (node.name === "rt") return ` (${inner})`;
      return node.name === "v" && node.value ? `${node.value.trim()}: ${inner}` : inner;
    })
    .join("");
}

/** The captions as a WebVTT file. Reading it gives the same words again. */
export function writeCaptions(cues: readonly Cue[]): string {
  return ["WEBVTT", ...cues.map(({ fromMs, toMs, text }) => `${stamp(fromMs)} --> ${stamp(toMs)}\n${escaped(text)}`)].join("\n\n") + "\n";
}

function stamp(ms: number): string {
  const whole = Math.round(ms);
  const part = (value: number, digits: number) => String(value).padStart(digits, "0");
  return `${part(Math.floor(whole / 3_600_000), 2)}:${part(Math.floor(whole / 60_000) % 60, 2)}:${part(Math.floor(whole / 1000) % 60, 2)}.${part(whole % 1000, 3)}`;
}

/** An empty line would end the cue, "-->" would begin another. */
function escaped(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/\n[ \t]*\n+/g, "\n");
}
