/** What the tests use of jstat, which brings no types. */
declare module "jstat" {
  interface Distribution {
    cdf(x: number, ...shapes: number[]): number;
    inv(share: number, ...shapes: number[]): number;
  }
  const jStat: {
    readonly beta: Distribution;
    readonly centralF: Distribution;
    readonly studentt: Distribution;
    readonly normal: Distribution;
    gammaln(x: number): number;
    stdev(values: readonly number[], isSample: boolean): number;
    mean(values: readonly number[]): number;
  };
  export default jStat;
}
