import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";

type Theme = "light" | "dark";

const css = readFileSync(path.resolve(import.meta.dirname, "look/tokens.css"), "utf8");
const tokens = new Map([...css.matchAll(/--([\w-]+):\s*([^;]+);/g)].map((match) => [match[1]!, match[2]!.trim()]));

/** The colour a token has in a theme, as `#rrggbb`; follows references to other tokens. */
function colourOf(name: string, theme: Theme): string {
  const value = tokens.get(name);
  if (value === undefined) throw new Error(`There is no token --${name}.`);
  const reference = /^var\(--([\w-]+)\)$/.exec(value);
  if (reference) return colourOf(reference[1]!, theme);
  const pair = /^light-dark\((#[0-9a-f]{6}),\s*(#[0-9a-f]{6})\)$/.exec(value);
  const colour = pair ? pair[theme === "light" ? 1 : 2]! : value;
  if (!/^#[0-9a-f]{6}$/.test(colour)) throw new Error(`--${name} is no plain colour: ${value}`);
  return colour;
}

/** Relative luminance, WCAG 2.2, from sRGB. */
function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((start) => {
    const channel = parseInt(colour.slice(start, start + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

/** Contrast ratio, WCAG 2.2: from 1 (equal) to 21 (black on white). */
function contrast(one: string, other: string): number {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high! + 0.05) / (low! + 0.05);
}

const GROUNDS = ["paper", "sheet", "sunk"];
const VOICES = ["ink", "ink-2", "ink-3", "pencil", "data-blue", "data-green", "data-amber", "data-vermillion", "data-grey"];
const STATES = ["fine", "watch", "talk"];
const TEXT_PAIRS = [
  ...[...VOICES, ...STATES].flatMap((top) => GROUNDS.map((ground) => [top, ground] as const)),
  ["ink", "pencil-wash"],
  ["pencil", "pencil-wash"],
  ["on-ink", "ink"],
  ["on-pencil", "pencil"],
  ["mark", "mark-case"],
  ["guess", "guess-case"],
  ["on-tag", "tag"],
  ["plate-black", "plate-white"],
] as const;

describe.each<Theme>(["light", "dark"])("contrast of the %s theme", (theme) => {
  it.each(TEXT_PAIRS)("words in %s can be read on %s", (top, ground) => {
    expect(contrast(colourOf(top, theme), colourOf(ground, theme))).toBeGreaterThanOrEqual(4.5);
  });
  it.each(GROUNDS)("the edge of what can be pressed is seen on %s", (ground) => {
    expect(contrast(colourOf("rule-firm", theme), colourOf(ground, theme))).toBeGreaterThanOrEqual(3);
  });
});

describe("the measure itself", () => {
  it("gives 21 for black on white and 1 for a colour on itself", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 6);
    expect(contrast("#86255d", "#86255d")).toBe(1);
  });
});
