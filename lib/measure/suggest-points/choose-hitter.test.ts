import { describe, expect, test } from "vitest";
import { bodyAt } from "./body.fixture";
import { chooseHitter, wayOfHands } from "./choose-hitter";
import type { SeenBody, SeenFrame } from "./seen-body";

/** Frames 20 ms apart up to contact; each person by what is done on the frame. */
const frames = (...people: readonly ((i: number) => SeenBody | null)[]): SeenFrame[] =>
  Array.from({ length: 11 }, (_, i) => ({ frameIndex: 100 + i, seconds: (i - 10) * 0.02, bodies: people.flatMap((person) => person(i) ?? []) }));

/** Hands that go 30 px a frame. */
const hitter = (body: number, x: number) => (i: number) => bodyAt(body, [x, 300], { wr: { left: [x + 30 * i, 250], right: [x + 30 * i, 250] } });
const stander = (body: number, x: number) => () => bodyAt(body, [x, 300]);
/** Walks by, 8 px a frame. */
const walker = (body: number, x: number) => (i: number) => bodyAt(body, [x + 8 * i, 300]);

const chosen = (all: readonly SeenFrame[], known?: Parameters<typeof chooseHitter>[1]) => [...new Set([...chooseHitter(all, known).values()].map(({ body }) => body))];

describe("the hitter among several people", () => {
  test("is the one whose hands go furthest through the swing: ten steps of 30 px against ten of 8 and none", () => {
    const all = frames(stander(0, 200), walker(1, 400), hitter(2, 600));
    expect([0, 1, 2].map((body) => wayOfHands(all, body))).toEqual([0, 80, 300]);
    expect(chosen(all)).toEqual([2]);
    expect(chooseHitter(all).size).toBe(11);
  });

  test("is not one whose hands jump further than hands can go: that is a point that was lost", () => {
    const jumping = (i: number) => bodyAt(0, [200, 300], { wr: { left: [200 + (i % 2) * 400, 250], right: [200 + (i % 2) * 400, 250] } });
    expect(chosen(frames(jumping, hitter(1, 600)))).toEqual([1]);
  });

  test("is whoever a coach's points lie on, also when somebody else moves more", () => {
    expect(chosen(frames(stander(0, 200), hitter(1, 600)), [{ frameIndex: 105, point: "kn_f", x: 192, y: 352 }])).toEqual([0]);
    expect(chosen(frames(stander(0, 200), hitter(1, 600)), [{ frameIndex: 9, point: "kn_f", x: 192, y: 352 }, { frameIndex: 105, point: "tip", x: 190, y: 350 }])).toEqual([1]);
  });

  test("lost and found again under another number at the same place is the same; somebody elsewhere is not", () => {
    const first = (i: number) => (i < 8 ? hitter(0, 600)(i) : null);
    const again = (i: number) => (i === 9 ? hitter(5, 610)(i) : null);
    const found = chooseHitter(frames(first, again, stander(1, 200)));
    expect([...found].map(([frame, { body }]) => [frame, body]).slice(-2)).toEqual([[107, 0], [109, 5]]);
    expect(found.has(108)).toBe(false);
  });

  test("is nobody where there is nobody", () => {
    expect(chooseHitter(frames(() => null)).size).toBe(0);
    expect(chooseHitter([]).size).toBe(0);
  });
});
