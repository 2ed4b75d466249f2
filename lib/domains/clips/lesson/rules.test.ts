import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boardCommandOf, nextFilm, stepFilm, tileKeys, type BoardFilm } from "./rules";

const press = (key: string, more = {}) => ({ key, shiftKey: false, ctrlKey: false, metaKey: false, altKey: false, ...more });

describe("the keys of the board", () => {
  test("every tile has a key of its own, which no command has", () => {
    expect(new Set(tileKeys).size).toBe(tileKeys.length);
    tileKeys.forEach((key, tile) => expect(boardCommandOf(press(key), tileKeys.length)).toEqual({ kind: "give", tile }));
  });
  test("a key whose tile is not there does nothing, and the browser's keys are left alone", () => {
    expect(boardCommandOf(press("9"), 8)).toBeNull();
    expect(boardCommandOf(press("r", { ctrlKey: true }), 30)).toBeNull();
    expect(boardCommandOf(press("z", { ctrlKey: true }), 3)).toEqual({ kind: "undo" });
    expect(boardCommandOf(press("Backspace"), 3)).toEqual({ kind: "undo" });
  });
});

describe("the next film", () => {
  test("forty films to eight players take forty presses: each gives one and brings the next", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 8 }), { minLength: 1, maxLength: 40 }), (owners) => {
        let films: readonly BoardFilm[] = owners.map((_, i) => ({ key: i + 1, isGiven: false }));
        const given = new Map<number, number>();
        let inHand = nextFilm(films, null);
        let presses = 0;
        while (inHand !== null) {
          const at: number = inHand;
          const command = boardCommandOf(press(String(owners[at - 1])), 8);
          presses += 1;
          if (command?.kind === "give") given.set(at, command.tile + 1);
          films = films.map((it) => (it.key === at ? { ...it, isGiven: true } : it));
          inHand = nextFilm(films, at);
        }
        expect(presses).toBe(owners.length);
        expect([...given].sort(([a], [b]) => a - b).map(([, owner]) => owner)).toEqual(owners);
      }),
    );
  });
  test("is one that was left out before, once the end is reached", () => {
    const films = [1, 2, 3].map((key) => ({ key, isGiven: key !== 1 }));
    expect(nextFilm(films, 3)).toBe(1);
    expect(nextFilm(films.map((it) => ({ ...it, isGiven: true })), 3)).toBeNull();
  });
  test("steps to its neighbours, and the ends hold", () => {
    const films = [1, 2, 3].map((key) => ({ key, isGiven: false }));
    expect([stepFilm(films, 2, -1), stepFilm(films, 1, -1), stepFilm(films, 3, 1), stepFilm(films, null, -1), stepFilm([], null, 1)]).toEqual([1, 1, 3, 3, null]);
  });
});
