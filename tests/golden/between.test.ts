import { expect, it } from "vitest";
import { betweenPlaces, heldBetween } from "./between-places";

const rows = heldBetween(betweenPlaces(5, [60, 120, 240]));

it("the 95 % interval of a place between placed frames holds the true place in 93 of 100 at the least, for each kind of joint, rate and hole", () => {
  expect(rows).toHaveLength(13 * 3 * 2);
  for (const { key, count, held } of rows) {
    expect(count, key).toBeGreaterThan(300);
    expect(held, key).toBeGreaterThanOrEqual(0.93);
  }
});

it("and says no more doubt than there is: on average over all it holds in 97 of 100 at the most", () => {
  const all = rows.reduce((sum, { count }) => sum + count, 0);
  expect(rows.reduce((sum, { count, held }) => sum + held * count, 0) / all).toBeLessThan(0.97);
});
