import { describe, expect, test } from "vitest";
import type { EventView } from "../view";
import { guessInTurn, openGuesses, type EventGuess } from "./event-guesses";

const at = (event: EventView["event"], frameIndex: number, source: EventView["source"] = "coach"): EventView => ({ event, frameIndex, tick: frameIndex, source, sdSeconds: 0.01 });
const guess = (event: EventView["event"], frameIndex: number): EventGuess => ({ event, frameIndex, seconds: -0.2, sdSeconds: 0.01, note: "the toe is down" });

describe("suggested events", () => {
  test("an event that a coach has set is not asked about again, and the others come in the order of the swing", () => {
    const open = openGuesses([guess("plant", 50), guess("toe", 40), guess("load", 10)], [at("contact", 90), at("toe", 41)]);
    expect(open.map(({ event }) => event)).toEqual(["load", "plant"]);
  });
  test("contact that was only heard is a suggestion, and is asked about before all others", () => {
    const open = openGuesses([guess("load", 10)], [at("contact", 90, "suggested")]);
    expect(guessInTurn(open, 10)).toMatchObject({ event: "contact", frameIndex: 90, note: "heard in the sound" });
  });
  test("what lies on the frame shown is asked about first", () => {
    expect(guessInTurn(openGuesses([guess("load", 10), guess("plant", 50)], []), 50)?.event).toBe("plant");
    expect(guessInTurn([], 3)).toBeNull();
  });
});
