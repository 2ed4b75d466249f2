import fc from "fast-check";
import { expect, test } from "vitest";
import { nothingShown, turnShowing, type Frames, type Showing } from "./showing";

const both = (frame: number): Frames => ({ a: frame, b: frame + 100 });

test("clips that move together only ever show frames of one and the same instant, and one that was asked for", () => {
  const move = fc.oneof(
    fc.record({ ask: fc.nat(20) }),
    fc.record({ ready: fc.tuple(fc.constantFrom("a", "b"), fc.nat(20)) }),
    fc.record({ passMs: fc.nat(600) }),
  );
  fc.assert(
    fc.property(fc.array(move, { maxLength: 80 }), (moves) => {
      const ready = new Set<string>();
      const asked = new Set([0]);
      let now: Showing = { ...nothingShown, shown: both(0) };
      let wish = both(0);
      let ms = 0;
      for (const it of moves) {
        if ("ask" in it) asked.add((wish = both(it.ask)).a ?? 0);
        else if ("ready" in it) ready.add(`${it.ready[0]} ${it.ready[1] + (it.ready[0] === "b" ? 100 : 0)}`);
        else ms += it.passMs;
        now = turnShowing(now, wish, (id, frame) => ready.has(`${id} ${frame}`), ms);
        expect((now.shown.b ?? 0) - (now.shown.a ?? 0)).toBe(100);
        expect(asked.has(now.shown.a ?? -1)).toBe(true);
      }
    }),
  );
});

test("what is ready is shown at once, also while another instant is on its way", () => {
  const waiting = turnShowing({ ...nothingShown, shown: both(0) }, both(5), () => false, 0);
  expect(turnShowing(waiting, both(7), (_, frame) => frame % 100 === 7, 1).shown).toEqual(both(7));
});

test("wishes that come while an instant is on its way are dropped for the newest of them", () => {
  let now = turnShowing({ ...nothingShown, shown: both(0) }, both(5), () => false, 0);
  for (const wish of [6, 7, 8]) now = turnShowing(now, both(wish), () => false, 10);
  expect(now.onItsWay).toEqual(both(5));
  now = turnShowing(now, both(8), (_, frame) => frame % 100 === 5, 20);
  expect(now.shown).toEqual(both(5));
  expect(now.onItsWay).toEqual(both(8));
});

test("an instant that does not come is given up for what is wanted by now", () => {
  const waiting = turnShowing({ ...nothingShown, shown: both(0) }, both(5), () => false, 0);
  expect(turnShowing(waiting, both(9), () => false, 500).onItsWay).toEqual(both(9));
});

test("a clip that comes or goes changes what is waited for", () => {
  const waiting = turnShowing({ ...nothingShown, shown: both(0) }, both(5), () => false, 0);
  expect(turnShowing(waiting, { a: 5 }, () => false, 1).onItsWay).toEqual({ a: 5 });
});

test("where the newest wish is not there yet, the newest one before it that is there is shown, and the wait goes on", () => {
  let now = turnShowing({ ...nothingShown, shown: both(0) }, both(5), () => false, 0);
  now = turnShowing(now, both(6), () => false, 10);
  now = turnShowing(now, both(7), () => false, 20);
  // What lies before the one that was sent for is not shown though it is there: nobody asked for it.
  expect(turnShowing(now, both(8), (_, frame) => frame % 100 === 4, 30).shown).toEqual(both(0));
  now = turnShowing(now, both(9), (_, frame) => frame % 100 === 6, 40);
  expect([now.shown, now.onItsWay]).toEqual([both(6), both(9)]);
  // One of the two clips alone does not go on.
  expect(turnShowing(now, both(10), (id, frame) => id === "a" && frame === 9, 50).shown).toEqual(both(6));
});
