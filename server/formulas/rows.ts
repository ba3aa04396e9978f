import {
  newLine,
  newPart,
  newStage,
  newSwap,
  newVariant,
  type TypedFormula,
  type TypedLine,
  type TypedPart,
  type TypedSwap,
} from "./typed.ts"

/**
 * The form with one row added, removed or moved, by what the pressed button says: `part`, `stage`, `line:1` (into the
 * part at 1), `remove-line:1:2`, `remove-part:1`, `remove-stage:3`, `up:stage:3`, `down:part:0`; `paste` for nothing but
 * the lines pasted, which any button adds; `read:1:2:9 fl oz` to take the third line of the second part as 9 fl oz.
 * `finishing`, `variant`, `swap` and `swap-line` have the like. A place that does not exist changes nothing; undefined for
 * a button that is none of these.
 */
export function changeRows(typed: TypedFormula, change: string): TypedFormula | undefined {
  const { parts, stages, finishing, variants } = typed
  const [what, ...places] = change.split(":")
  const [first, second, third] = places.map(Number)
  const inPart = (changed: (lines: TypedLine[]) => TypedLine[]) => ({
    ...typed,
    parts: at(parts, first, (part) => ({ ...part, lines: changed(part.lines) })),
  })
  const inVariant = (changed: (swaps: TypedSwap[]) => TypedSwap[]) => ({
    ...typed,
    variants: at(variants, first, (variant) => ({ ...variant, swaps: changed(variant.swaps) })),
  })
  const inSwap = (changed: (lines: TypedLine[]) => TypedLine[]) =>
    inVariant((swaps) => at(swaps, second, (swap) => ({ ...swap, lines: changed(swap.lines) })))
  switch (what) {
    case "paste":
      return typed
    case "part":
      return { ...typed, parts: addPart(parts) }
    case "stage":
      return { ...typed, stages: [...stages, newStage()] }
    case "line":
      return inPart((lines) => [...lines, newLine()])
    case "remove-line":
      return inPart((lines) => without(lines, second))
    case "read":
      return inPart((lines) => at(lines, second, readAs(places.slice(2).join(":"))))
    case "finishing":
      return { ...typed, finishing: [...finishing, newLine()] }
    case "remove-finishing":
      return { ...typed, finishing: without(finishing, first) }
    case "read-finishing":
      return { ...typed, finishing: at(finishing, first, readAs(places.slice(1).join(":"))) }
    case "variant":
      return { ...typed, variants: [...variants, newVariant()] }
    case "remove-variant":
      return { ...typed, variants: without(variants, first) }
    case "swap":
      return inVariant((swaps) => [...swaps, newSwap()])
    case "remove-swap":
      return inVariant((swaps) => without(swaps, second))
    case "swap-line":
      return inSwap((lines) => [...lines, newLine()])
    case "remove-swap-line":
      return inSwap((lines) => without(lines, third))
    case "read-swap":
      return inSwap((lines) => at(lines, third, readAs(places.slice(3).join(":"))))
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
  const place = parts.findIndex(({ goesInto }) => goesInto === "")
  const part = { ...newPart(), goesInto: parts[place]?.key ?? "" }
  return place < 0 ? [...parts, part] : parts.toSpliced(place, 0, part)
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

const readAs = (text: string) => (line: TypedLine) => ({ ...line, readAs: text })

const at = <Row>(rows: Row[], index: number | undefined, change: (row: Row) => Row) =>
  rows.map((row, place) => (place === index ? change(row) : row))

const without = <Row>(rows: Row[], index: number | undefined) => rows.filter((_, place) => place !== index)

function moved<Row>(rows: Row[], from: number | undefined, by: number): Row[] {
  const row = from === undefined ? undefined : rows[from]
  const to = (from ?? 0) + by
  if (row === undefined || to < 0 || to >= rows.length) return rows
  return rows.toSpliced(from!, 1).toSpliced(to, 0, row)
}
