import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";

const folder = path.resolve(import.meta.dirname, "look");
const files = readdirSync(folder).filter((name) => name.endsWith(".css"));
const read = (name: string) => readFileSync(path.join(folder, name), "utf8");
const components = files.filter((name) => !["tokens.css", "glyphs.css", "fonts.css"].includes(name));
/** Read by every page, and beside it by coaches' pages only. */
const ENTRIES = ["index.css", "coach.css"];
const importedBy = (entry: string) => [...read(entry).matchAll(/@import "\.\/([\w-]+\.css)"/g)].map((match) => match[1] ?? "");
const uncommented = (name: string) => read(name).replace(/\/\*[\s\S]*?\*\//g, "");

describe("the look", () => {
  it("is read as a whole through its two entry files, each file once", () => {
    expect([...ENTRIES.flatMap(importedBy), ...ENTRIES].sort()).toEqual([...files].sort());
  });
  it.each(components)("%s writes no colour and no shadow of its own", (name) => {
    expect(uncommented(name).match(/#[0-9a-f]{3,8}\b|\b(?:rgb|hsl|oklch|light-dark)\(/gi) ?? []).toEqual([]);
    const shadows = [...uncommented(name).matchAll(/box-shadow:\s*([^;]+);/g)].map((match) => match[1] ?? "");
    expect(shadows.filter((value) => !/^(var\(--lift\)|inset 0 -?4px var\(--pencil\))$/.test(value))).toEqual([]);
  });
  it.each(components)("%s takes every size of type from a token", (name) => {
    const sizes = [...uncommented(name).matchAll(/\bfont(?:-size)?:\s*([^;]+);/g)].map((match) => match[1] ?? "");
    expect(sizes.filter((value) => !/var\(--t-|inherit/.test(value))).toEqual([]);
  });
  it.each(components)("%s uses only tokens that exist", (name) => {
    const defined = new Set(files.flatMap((file) => [...read(file).matchAll(/(--[\w-]+):/g)].map((match) => match[1])));
    const used = [...uncommented(name).matchAll(/var\((--[\w-]+)/g)].map((match) => match[1]);
    expect(used.filter((token) => !defined.has(token))).toEqual([]);
  });
  it("weighs less than 16 kB compressed, so that a portal page stays light on a phone", () => {
    expect(gzipSync(["index.css", ...importedBy("index.css")].map(read).join("\n")).length).toBeLessThan(16_000);
  });
});
