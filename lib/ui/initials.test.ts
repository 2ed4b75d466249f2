import { describe, expect, it } from "vitest";
import { initialsOf } from "./initials";

describe("initialsOf", () => {
  it("takes the first and the last name and leaves out what stands between", () => {
    expect(initialsOf("Ines Maria Corvane")).toBe("IC");
  });
  it("gives one letter for a single name and none for no name", () => {
    expect(initialsOf("Ines")).toBe("I");
    expect(initialsOf("  ")).toBe("");
  });
  it("never cuts a letter in two", () => {
    expect(initialsOf("𐐀da Élan")).toBe("𐐀É");
  });
});
