import { expect, test } from "vitest";
import { besideCaptions, type Captioned } from "./beside-captions";

const clip = (more: Partial<Captioned>): Captioned => ({ swingId: "now", playerId: "pia", playerName: "Pia", day: "2026-11-25", view: "side", ...more });

test("the first clip is this swing, another swing says its day and a year that is not this one", () => {
  expect(besideCaptions([clip({}), clip({ swingId: "b", day: "2026-11-18" }), clip({ swingId: "c", day: "2025-10-07" })], "2026-11-25")).toEqual(["This swing", "18 Nov", "7 Oct 2025"]);
});
test("views are said where they differ, and names where the player does", () => {
  expect(besideCaptions([clip({}), clip({ view: "rear" }), clip({ swingId: "b", playerId: "wren", playerName: "Wren" })], "2026-11-25")).toEqual([
    "This swing, from the side", "This swing, from behind", "Wren, 25 Nov, from the side",
  ]);
});
test("no two captions are alike", () => {
  const captions = besideCaptions([clip({}), clip({ swingId: "b" }), clip({ swingId: "c" }), clip({ swingId: "d" })], "2026-11-25");
  expect(new Set(captions).size).toBe(4);
});
