import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { median, percentile } from "@/lib/measure/order-statistics";

describe("percentiles", () => {
  it("are those of the sorted values, whatever the order and however many are alike", () => {
    const value = fc.oneof(fc.integer({ min: -3, max: 3 }), fc.double({ min: -1e6, max: 1e6, noNaN: true }));
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 400 }), fc.double({ min: 0, max: 1, noNaN: true }), (values, share) => {
        const sorted = [...values].sort((a, b) => a - b);
        const rank = share * (sorted.length - 1);
        const [lower, upper] = [sorted[Math.floor(rank)]!, sorted[Math.ceil(rank)]!];
        expect(percentile(values, share)).toBeCloseTo(lower + (rank - Math.floor(rank)) * (upper - lower), 6);
      }),
    );
  });
  it("leave the values as they are", () => {
    const values = Float64Array.from([5, 1, 4, 2, 3]);
    expect(median(values)).toBe(3);
    expect([...values]).toEqual([5, 1, 4, 2, 3]);
  });
  it("count unknown values as the largest, and are unknown where one of them would decide", () => {
    expect(median([1, NaN, 2])).toBe(2);
    expect(percentile([1, NaN, 2], 0.95)).toBeNaN();
    expect(median([])).toBeNaN();
  });
});
