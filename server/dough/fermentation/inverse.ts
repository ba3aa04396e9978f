/** The inverse of a small square matrix by Gauss-Jordan elimination; undefined when it has none. */
export function inverse(matrix: number[][]): number[][] | undefined {
  const size = matrix.length
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))])
  for (let column = 0; column < size; column++) {
    let pivot = column
    for (let i = column + 1; i < size; i++) if (Math.abs(rows[i]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = i
    const lead = rows[pivot]!
    const first = lead[column]!
    if (!(Math.abs(first) > 0)) return undefined
    rows[pivot] = rows[column]!
    rows[column] = lead
    // in place: a prediction inverts dozens of these
    for (let j = column; j < 2 * size; j++) lead[j]! /= first
    for (let i = 0; i < size; i++) if (i !== column) takeAway(rows[i]!, rows[i]![column]!, lead, column)
  }
  return rows.map((row) => row.slice(size))
}

function takeAway(row: number[], times: number, lead: number[], from: number) {
  for (let j = from; j < row.length; j++) row[j]! -= times * lead[j]!
}
