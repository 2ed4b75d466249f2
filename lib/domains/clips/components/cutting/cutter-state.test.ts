import { describe, expect, test } from "vitest";
import { cutterReducer, startCutter, type CutterAction, type CutterState } from "./cutter-state";

const cut = (firstFrame: number, lastFrame: number, contactFrame: number | null = null) => ({ firstFrame, lastFrame, contactFrame });
const answers = { playerId: "pia" };
const after = (actions: readonly CutterAction[], from: CutterState = startCutter(1000)) => actions.reduce(cutterReducer, from);
const offer: CutterAction = { kind: "offer", cuts: [cut(80, 200, 150), cut(400, 600, 500)], answers };

describe("the cutter", () => {
  test("shows the first swing that is offered at its crack, and goes from one to the next; the ends hold", () => {
    expect(after([offer])).toMatchObject({ inHand: 1, frame: 150 });
    expect(after([offer, { kind: "next-cut", by: 1 }])).toMatchObject({ inHand: 2, frame: 500 });
    expect(after([offer, { kind: "next-cut", by: 1 }, { kind: "next-cut", by: 1 }])).toMatchObject({ inHand: 2 });
  });
  test("keeps what was set by hand when offers come later", () => {
    const state = after([{ kind: "add", cut: cut(700, 800), answers }, offer]);
    expect(state.cuts.map(({ firstFrame, by }) => [firstFrame, by])).toEqual([[80, "offer"], [400, "offer"], [700, "hand"]]);
  });
  test("every change is taken back by Undo, exactly", () => {
    const start = after([offer]);
    const changes: readonly CutterAction[] = [
      { kind: "add", cut: cut(700, 800), answers }, { kind: "drop" }, { kind: "answer", key: 1, answers: { playerId: "ned", side: "left" } }, { kind: "end", end: "last" },
    ];
    for (const change of changes) expect(after([change, { kind: "undo" }], start).cuts).toEqual(start.cuts);
  });
  test("dropping takes the next one in hand, and the last one leaves nothing", () => {
    const state = after([offer, { kind: "drop" }]);
    expect(state).toMatchObject({ inHand: 2 });
    expect(after([{ kind: "drop" }], state)).toMatchObject({ inHand: null, cuts: [] });
  });
  test("an end that would leave nothing is said and changes nothing", () => {
    const state = after([offer, { kind: "show", frame: 80 }, { kind: "end", end: "last" }]);
    expect(state).toMatchObject({ trouble: "too-short", cuts: [{ lastFrame: 200 }, {}] });
  });
});
