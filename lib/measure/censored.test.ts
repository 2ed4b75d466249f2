import { describe, expect, it } from "vitest";
import { beyondLimit, censoredAt, certainlyBeyond, withinCensor } from "@/lib/measure/censored";

const censor = { above: 0.3, say: "not before 0.30 s", verdict: "inside ok with probability 1" };

describe("a reading beyond its limit", () => {
  it("is that limit, on the side that the limit is of", () => {
    expect([censoredAt(0.2, censor), censoredAt(0.3, censor), censoredAt(Infinity, censor)]).toEqual([null, 0.3, 0.3]);
    expect(censoredAt(-Infinity, { ...censor, above: undefined, below: -0.1 })).toBe(-0.1);
    expect([withinCensor(0.7, censor), withinCensor(NaN, censor), withinCensor(0.7, undefined)]).toEqual([0.3, NaN, 0.7]);
  });
  it("is said with certainty when no draw, or hardly one, lies before the limit", () => {
    expect(beyondLimit(new Array<number>(200).fill(0.3), censor)).toEqual(certainlyBeyond(0.3));
    expect(beyondLimit([...new Array<number>(196).fill(0.3), 0.2, 0.2, 0.2, 0.2], censor)?.isCensored).toBe(true);
  });
  it("is a value in doubt, down to where the draws lie, when noise may have carried it there", () => {
    const reading = beyondLimit([...new Array<number>(140).fill(0.3), ...Array.from({ length: 60 }, (_, i) => 0.12 + i / 1000)], censor);
    expect(reading).toMatchObject({ value: 0.3, isCensored: false, quantiles: { p50: 0.3, p84: 0.3 } });
    expect(reading?.quantiles?.p16).toBeLessThan(0.18);
    expect(reading?.sd).toBeGreaterThan(0.05);
  });
});
