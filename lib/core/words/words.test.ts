import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { IntlMessageFormat } from "intl-messageformat";
import { describe, expect, it } from "vitest";
import { sayIn } from "./catalogue";
import { es } from "./es";
import { inBrowser } from "./es/in-browser";
import { languageAskedFor, LOCALES, type Language } from "./languages";
import { fill, gapsOf } from "./message";
import { english } from "./say";

const sentences = Object.entries(es) as [string, string][];
const ROOT = path.resolve(import.meta.dirname, "../../..");
const filesOf = (folder: string): string[] =>
  readdirSync(path.join(ROOT, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name) && !/\.test\.tsx?$/.test(entry.name))
    .map((entry) => path.join(entry.parentPath, entry.name))
    .filter((file) => !file.includes("/lib/core/words/es/") && !file.includes("/generated/"));
const sources = [...filesOf("lib"), ...filesOf("app")].map((file) => ({ file: path.relative(ROOT, file), text: readFileSync(file, "utf8") }));

/** Numbers at which plurals turn, and words with marks of their own. */
const gapsFor = (message: string, count: number) => Object.fromEntries(gapsOf(message).map((name) => [name, message.includes(`{${name}, plural`) || /count|days|minutes/.test(name) ? count : `«${name}»`]));

describe("a sentence of the catalogue", () => {
  it("says what the reference formatter of ICU messages says, in both languages, at every plural", () => {
    for (const [key, text] of sentences) {
      for (const [message, language] of [[key, "en"], [text, "es"]] as [string, Language][]) {
        for (const count of [0, 1, 2, 5, 7, 21, 100]) {
          const gaps = gapsFor(message, count);
          expect(fill(message, language, gaps), message).toBe(new IntlMessageFormat(message, LOCALES[language]).format(gaps));
        }
      }
    }
  });

  it("has the same gaps in Spanish", () => {
    for (const [key, text] of sentences) expect(gapsOf(text), key).toEqual(gapsOf(key));
  });

  it("is said somewhere: what nobody says any more goes", () => {
    const whole = sources.map(({ text }) => text).join("\n");
    // A number of the program stands in some by its name.
    const numbers = new Map([...whole.matchAll(/const ([A-Z_]+) = (\d+);/g)].map(([, name, value]) => [name, value]));
    const all = whole.replace(/\$\{([A-Z_]+)\}/g, (gap, name: string) => numbers.get(name) ?? gap);
    expect(sentences.map(([key]) => key).filter((key) => ![`"${key.replaceAll('"', '\\"')}"`, `\`${key}\``].some((quoted) => all.includes(quoted)))).toEqual([]);
  });

  it("goes to the browser when a part says it there", () => {
    const said = sources
      .filter(({ text }) => /useSay\(\)|<Here /.test(text))
      .flatMap(({ file, text }) => [...text.matchAll(/\bsay\(\s*"((?:[^"\\]|\\.)*)"|<Here text="([^"]*)"/g)].map((found) => ({ file, key: found[1] ?? found[2] ?? "" })));
    expect(said.length).toBeGreaterThan(50);
    expect(said.filter(({ key }) => !Object.hasOwn(inBrowser, key))).toEqual([]);
  });

  it("names a gap that was not given, and a brace that is not closed", () => {
    expect(() => fill("Done: {name}", "en")).toThrow(RangeError);
    expect(() => fill("Done: {name", "en", { name: "x" })).toThrow(SyntaxError);
  });
});

describe("a voice", () => {
  const say = sayIn("es", { "High tee": "Tee alto" });

  it("says days, lists and numbers by the rules of its language", () => {
    expect(say.day("2026-12-09")).toBe("miércoles 9 de diciembre");
    expect(say.list(["Ana", "Luis", "Iván"])).toBe("Ana, Luis e Iván");
    expect(english.day("2026-12-09")).toBe("Wednesday 9 December");
    expect(english.list(["Ana", "Luis", "Iván"])).toBe("Ana, Luis and Iván");
  });

  it("keeps a sentence whole: around a text without translation it is English, and marked so", () => {
    expect(say.around("High tee")("It worked when: {worked}", { worked: say.told("High tee") })).toBe("Salió bien cuando: Tee alto");
    const voice = say.around("High tee", "Our own drill");
    expect(voice("You need: {things}.", { things: voice.list(["High tee", "Our own drill"].map(voice.told)) })).toBe("You need: High tee and Our own drill.");
    expect([say.langOf("High tee"), say.langOf("High tee", "Our own drill"), english.langOf("Our own drill")]).toEqual([undefined, "en", undefined]);
  });
});

it("the language that a browser asks for is the first of ours by its weights", () => {
  expect(languageAskedFor("es-MX,es;q=0.9,en;q=0.8")).toBe("es");
  expect(languageAskedFor("fr;q=0.9, en-US;q=0.4, es;q=0.8")).toBe("es");
  expect(languageAskedFor("es;q=0, de")).toBe("en");
  expect(languageAskedFor("en-GB,es;q=0.9")).toBe("en");
  expect(languageAskedFor(null)).toBe("en");
});
