import { newLine, newPart, newStage, type TypedFormula, type TypedPart } from "./typed.ts"

/**
 * The form with one row added, removed or moved, by what the pressed button says: `part`, `stage`, `line:1` (into the
 * part at 1), `remove-line:1:2`, `remove-part:1`, `remove-stage:3`, `up:stage:3`, `down:part:0`. A place that does not
 * exist changes nothing; undefined for a button that is none of these.
 */
export function changeRows(typed: TypedFormula, change: string): TypedFormula | undefined {
  const { parts, stages } = typed
  const [what, ...places] = change.split(":")
  const [first, second] = places.map(Number)
  switch (what) {
    case "part":
      return { ...typed, parts: addPart(parts) }
    case "stage":
      return { ...typed, stages: [...stages, newStage()] }
    case "line":
      return changeLines(typed, first, (lines) => [...lines, newLine()])
    case "remove-line":
      return changeLines(typed, first, (lines) => without(lines, second))
    case "remove-part":
      return { ...typed, parts: removePart(parts, first) }
    case "remove-stage":
      return { ...typed, stages: without(stages, first) }
    case "up":
    case "down": {
      const by = what === "up" ? -1 : 1
      if (places[0] === "part") return { ...typed, parts: moved(parts, second, by) }
      if (places[0] === "stage") return { ...typed, stages: moved(stages, second, by) }
    }
  }
}

/** A new part comes before the final dough, and goes into it. */
function addPart(parts: TypedPart[]) {
  const at = parts.findIndex(({ goesInto }) => goesInto === "")
  const part = { ...newPart(), goesInto: parts[at]?.key ?? "" }
  return at < 0 ? [...parts, part] : parts.toSpliced(at, 0, part)
}

/** What went into the part that is gone goes where that one went. */
function removePart(parts: TypedPart[], index: number | undefined) {
  const gone = index === undefined ? undefined : parts[index]
  const onward = (part: TypedPart) => {
    if (!gone || part.goesInto !== gone.key) return part
    return { ...part, goesInto: gone.goesInto === part.key ? "" : gone.goesInto }
  }
  return without(parts, index).map(onward)
}

const changeLines = (
  typed: TypedFormula,
  index: number | undefined,
  change: (lines: TypedPart["lines"]) => TypedPart["lines"],
) => ({
  ...typed,
  parts: typed.parts.map((part, at) => (at === index ? { ...part, lines: change(part.lines) } : part)),
})

const without = <Row>(rows: Row[], index: number | undefined) => rows.filter((_, at) => at !== index)

function moved<Row>(rows: Row[], from: number | undefined, by: number): Row[] {
  const row = from === undefined ? undefined : rows[from]
  const to = (from ?? 0) + by
  if (row === undefined || to < 0 || to >= rows.length) return rows
  return rows.toSpliced(from!, 1).toSpliced(to, 0, row)
}
