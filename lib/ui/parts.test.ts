import { createElement, type ReactElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { Choice } from "./choice";
import { CountRow } from "./count-row";
import { DefinitionRows } from "./definition-rows";
import { Progress } from "./progress";
import { State } from "./state";
import { TextInput } from "./text-input";

const html = (element: ReactElement) => renderToStaticMarkup(element);
const occurrences = (text: string, part: string) => text.split(part).length - 1;

describe("a field", () => {
  it("names its error before its hint to whoever hears it read", () => {
    const text = html(createElement(TextInput, { id: "h", name: "height", label: "Height", hint: "In centimetres.", error: "Did you mean 152?" }));
    expect(text).toContain('aria-describedby="h-error h-hint"');
    expect(text).toContain('aria-invalid="true"');
    expect(text).toContain('<label for="h">Height</label>');
  });
  it("claims nothing about itself while nothing is said about it", () => {
    const text = html(createElement(TextInput, { id: "h", name: "height", label: "Height" }));
    expect(text).not.toContain("aria-describedby");
    expect(text).not.toContain("aria-invalid");
  });
});

describe("a choice", () => {
  it("is one group whose chosen answer is the given one", () => {
    const options = [
      { value: "half", label: "Half" },
      { value: "real", label: "Real" },
    ];
    const text = html(createElement(Choice, { name: "speed", label: "Speed", options, defaultValue: "real" }));
    expect(text).toContain('role="radiogroup"');
    expect(/<input[^>]*checked=""[^>]*value="real"|<input[^>]*value="real"[^>]*checked=""/.test(text)).toBe(true);
    expect(occurrences(text, "checked=")).toBe(1);
  });
});

describe("a count", () => {
  it("leaves what is not visible out of the sum, and says so", () => {
    const text = html(createElement(CountRow, { count: 2, total: 2, notVisible: 3, unit: "swings" }));
    expect(text).toContain("2 of 2 that show it");
    expect(text).toContain("3 do not show it");
    expect(occurrences(text, 'class="hatched"')).toBe(3);
    expect(occurrences(text, 'class="on"')).toBe(2);
  });
  it("draws no dots that nobody could count", () => {
    const text = html(createElement(CountRow, { count: 20, total: 40 }));
    expect(text).toContain("20 of 40");
    expect(text).not.toContain("<i");
  });
});

describe("a state", () => {
  it("always has its word", () => {
    expect(html(createElement(State, { is: "not-visible" }))).toContain(">not visible<");
  });
});

describe("progress", () => {
  it("never shows more than is there, and tells the true numbers", () => {
    const text = html(createElement(Progress, { label: "Reading.", done: 4, total: 9 }));
    expect(occurrences(text, 'class="on"')).toBe(4);
    expect(text).toContain('aria-valuemax="9" aria-valuenow="4"');
  });
  it("never looks finished before it is", () => {
    expect(occurrences(html(createElement(Progress, { label: "Reading.", done: 999, total: 1000 })), 'class="on"')).toBeLessThan(48);
  });
});

describe("facts by name", () => {
  it("leave out what is empty but keep a nought", () => {
    const rows = [
      { term: "Swings", value: 0 },
      { term: "Partner", value: null },
    ];
    const text = html(createElement(DefinitionRows, { rows }));
    expect(text).toContain("Swings");
    expect(text).not.toContain("Partner");
  });
});
