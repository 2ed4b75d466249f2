import fc from "fast-check";
import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { canonicalJson, contentHash, isSameValue } from "./canonical-json";

describe("canonical JSON", () => {
  it("does not depend on the order in which keys were written", () => {
    expect(canonicalJson({ b: [1, { d: null, c: "x" }], a: true })).toBe('{"a":true,"b":[1,{"c":"x","d":null}]}');
    expect(isSameValue({ a: 1, b: 2 }, { b: 2, a: 1, c: undefined })).toBe(true);
  });

  it("depends on the order of a list", () => {
    expect(isSameValue([1, 2], [2, 1])).toBe(false);
  });

  it("reads back as the value it was made from", () => {
    fc.assert(fc.property(fc.jsonValue(), (value) => {
      expect(JSON.parse(canonicalJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
    }));
  });

  it("refuses what JSON cannot hold, by name", () => {
    expect(() => canonicalJson({ a: NaN })).toThrow(/NaN/);
    expect(() => canonicalJson([() => 1])).toThrow(/function/);
  });

  it("hashes to the SHA-256 of its bytes", async () => {
    const value = { name: "Ü", list: [0.5, "ß"] };
    const expected = createHash("sha256").update('{"list":[0.5,"ß"],"name":"Ü"}', "utf8").digest("hex");
    expect(await contentHash(value)).toBe(expected);
    expect(await contentHash({ ...value, name: "U" })).not.toBe(expected);
  });
});
