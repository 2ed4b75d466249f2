/** The part of jstat that the tests ask for a second opinion. */
declare module "jstat" {
  interface OneParameter {
    pdf(x: number, a: number): number;
    cdf(x: number, a: number): number;
    inv(p: number, a: number): number;
  }
  interface TwoParameters {
    pdf(x: number, a: number, b: number): number;
    cdf(x: number, a: number, b: number): number;
    inv(p: number, a: number, b: number): number;
  }
  export const jStat: {
    readonly normal: TwoParameters;
    readonly beta: TwoParameters;
    readonly centralF: TwoParameters;
    readonly gamma: TwoParameters;
    readonly studentt: OneParameter;
    readonly chisquare: OneParameter;
    mean(values: readonly number[]): number;
    median(values: readonly number[]): number;
    stdev(values: readonly number[], isSample?: boolean): number;
    variance(values: readonly number[], isSample?: boolean): number;
    percentile(values: readonly number[], share: number): number;
    corrcoeff(a: readonly number[], b: readonly number[]): number;
  };
}
