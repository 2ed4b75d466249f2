import { describe, expect, it } from "vitest";
import { IDLE } from "@/lib/core/action-state";
import { checkState, fieldState } from "./field-state";

describe("fieldState", () => {
  it("begins with the value that is kept", () => {
    expect(fieldState(IDLE, "height", "152")).toEqual({ defaultValue: "152" });
  });
  it("gives back what was typed together with the sentence about it", () => {
    const refused = { status: "refused" as const, message: "", fields: { height: "Too tall." }, values: { height: "1520" } };
    expect(fieldState(refused, "height", "152")).toEqual({ error: "Too tall.", defaultValue: "1520" });
  });
  it("keeps a field that was emptied empty", () => {
    const refused = { status: "refused" as const, message: "", fields: {}, values: { height: "" } };
    expect(fieldState(refused, "height", "152").defaultValue).toBe("");
  });
});

describe("checkState", () => {
  it("gives back a tick that was sent and no tick where none was", () => {
    const refused = { status: "refused" as const, message: "", fields: {}, values: { mayShow: "on" } };
    expect(checkState(refused, "mayShow").defaultChecked).toBe(true);
    expect(checkState(refused, "mayFilm", true).defaultChecked).toBe(false);
  });
});
