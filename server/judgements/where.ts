/** Where on the bench a fact that would help can be said. */
export function placeOf(asks: string | undefined): string {
  if (asks === undefined) return ""
  return places[asks] ?? "#saw"
}
const places: Record<string, string> = {
  hours: "#stages",
  rise: "#reading-rise",
  finger: "#reading-finger",
  inside: "#result",
}
