import { describe, expect, it } from "vitest";
import { applyPatch } from "./patch";

const record = { id: "fence-gap-swing", name: "Fence gap swing", steps: ["Stand.", "Swing."], minAge: 8 };
const patchable = ["name", "steps", "minAge"];

describe("a proposal", () => {
  it("changes the fields it names and leaves the record it was given alone", () => {
    const outcome = applyPatch(record, { steps: { was: ["Stand.", "Swing."], becomes: ["Stand still.", "Swing."] } }, patchable);
    expect(outcome).toEqual({ isApplied: true, record: { ...record, steps: ["Stand still.", "Swing."] } });
    expect(record.steps[0]).toBe("Stand.");
  });

  it("on a field that is not on the list is refused by the field's name", () => {
    const outcome = applyPatch(record, { id: { was: "fence-gap-swing", becomes: "other" } }, patchable);
    expect(outcome).toMatchObject({ isApplied: false, refusals: [{ field: "id", kind: "unknown-field" }] });
  });

  it("on a field that has changed since it was written is a conflict that names the field, and nothing is applied", () => {
    const patch = { name: { was: "Fence gap", becomes: "Gap swing" }, minAge: { was: 8, becomes: 9 } };
    expect(applyPatch(record, patch, patchable)).toEqual({
      isApplied: false,
      refusals: [{ field: "name", kind: "conflict", words: expect.stringContaining('"name" has changed since') }],
    });
  });

  it("whose value is in force already is no conflict", () => {
    expect(applyPatch(record, { minAge: { was: 7, becomes: 8 } }, patchable)).toEqual({ isApplied: true, record });
  });

  it("that changes nothing is refused", () => {
    expect(applyPatch(record, {}, patchable).isApplied).toBe(false);
    expect(applyPatch(record, { minAge: { was: 8, becomes: 8 } }, patchable).isApplied).toBe(false);
  });

  it("cannot reach what every object inherits", () => {
    const outcome = applyPatch(record, JSON.parse('{"__proto__":{"was":1,"becomes":2}}'), patchable);
    expect(outcome).toMatchObject({ isApplied: false, refusals: [{ field: "__proto__" }] });
  });
});
