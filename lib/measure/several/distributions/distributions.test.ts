import fc from "fast-check";
import jStat from "jstat";
import { describe, expect, it } from "vitest";
import { betaBelow, betaQuantile } from "@/lib/measure/several/distributions/beta-distribution";
import { logBeta, logGamma } from "@/lib/measure/several/distributions/log-gamma";
import { fQuantile, normalQuantile, studentReach } from "@/lib/measure/several/distributions/quantiles";

const shape = fc.double({ min: 0.3, max: 60, noNaN: true });
const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });

describe("distributions", () => {
  it("the beta distribution agrees with a general library, and its quantile undoes it", () => {
    fc.assert(fc.property(share, shape, shape, (x, a, b) => {
      const below = betaBelow(x, a, b);
      // The library stops its own fraction at 3e-7.
      expect(Math.abs(below - jStat.beta.cdf(x, a, b))).toBeLessThan(1e-6);
      if (below > 1e-9 && below < 1 - 1e-9) expect(Math.abs(betaBelow(betaQuantile(below, a, b), a, b) - below)).toBeLessThan(1e-9);
    }));
  });
  it("a share from one side is the rest from the other", () => {
    fc.assert(fc.property(share, shape, shape, (x, a, b) => Math.abs(betaBelow(x, a, b) + betaBelow(1 - x, b, a) - 1) < 1e-12));
  });
  it("quantiles of F, t and the normal curve agree with a general library", () => {
    for (const [p, d1, d2] of [[0.975, 5, 18], [0.975, 15, 5], [0.5, 2, 7], [0.05, 9, 3]] as const) {
      expect(Math.abs(fQuantile(p, d1, d2) / jStat.centralF.inv(p, d1, d2) - 1)).toBeLessThan(1e-6);
    }
    for (const freedom of [1, 2, 5, 30]) expect(Math.abs(studentReach(0.95, freedom) / jStat.studentt.inv(0.975, freedom) - 1)).toBeLessThan(1e-6);
    expect(Math.abs(normalQuantile(0.975) - 1.959963984540054)).toBeLessThan(1e-12);
    expect(Math.abs(normalQuantile(0.1) - jStat.normal.inv(0.1, 0, 1))).toBeLessThan(1e-8);
  });
  it("factorials and the beta function come out whole", () => {
    expect(Math.abs(logGamma(11) - Math.log(3628800))).toBeLessThan(1e-12);
    expect(Math.abs(Math.exp(logBeta(3, 4)) - 1 / 60)).toBeLessThan(1e-14);
    expect(Math.abs(logGamma(0.25) - jStat.gammaln(0.25))).toBeLessThan(1e-9);
  });
  it("shapes, shares and freedoms that cannot be are refused", () => {
    for (const wrong of [() => betaBelow(0.5, 0, 1), () => betaBelow(1.2, 1, 1), () => betaQuantile(-0.1, 1, 1), () => fQuantile(0.5, NaN, 1), () => studentReach(1, 5), () => normalQuantile(0), () => logGamma(-1)]) {
      expect(wrong).toThrow(RangeError);
    }
  });
});
