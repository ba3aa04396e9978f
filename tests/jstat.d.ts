/** What our tests use of jstat, which comes without types. */
declare module "jstat" {
  export const jStat: {
    rank(values: number[]): number[]
    quantiles(values: number[], shares: number[], alpha: number, beta: number): number[]
    spearmancoeff(x: number[], y: number[]): number
    studentt: { cdf(t: number, freedom: number): number }
  }
}
