/** The part of odex that the tests use: its own types are TypeScript source, which our settings would check as if it were ours. */
export class Solver {
  constructor(dimensions: number)
  absoluteTolerance: number
  relativeTolerance: number
  maxSteps: number
  solve(derivative: (x: number, y: number[]) => number[], x0: number, y0: number[], x1: number): { y: number[] }
}
