/** What our tests use of fmin, which comes without types, and as a script: importing it sets a global. */
declare module "fmin" {}
declare const fmin: {
  nelderMead(
    f: (x: number[]) => number,
    start: number[],
    options?: { maxIterations?: number; minErrorDelta?: number; sigma?: number },
  ): { fx: number; x: number[] }
}
