/** The inverse of a small square matrix by Gauss-Jordan elimination; undefined when it has none. */
export function inverse(matrix: number[][]): number[][] | undefined {
  const size = matrix.length
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))])
  for (let column = 0; column < size; column++) {
    const candidates = rows.slice(column).map((row) => Math.abs(row[column]!))
    const pivot = column + candidates.indexOf(Math.max(...candidates))
    const lead = rows[pivot]!
    if (!(Math.abs(lead[column]!) > 0)) return undefined
    rows[pivot] = rows[column]!
    rows[column] = lead.map((value) => value / lead[column]!)
    for (const [i, row] of rows.entries())
      if (i !== column) rows[i] = row.map((value, j) => value - row[column]! * rows[column]![j]!)
  }
  return rows.map((row) => row.slice(size))
}
