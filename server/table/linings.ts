import type { Say } from "../accounts/say.ts"
import type { Stage } from "../dough/schedule.ts"
import type { Lined } from "./places.ts"
import type { Subject } from "./subjects.ts"

/** All that bakes can be lined up by, each in words that go after "Lined up by". */
export function liningsOf(
  stages: Map<string, Stage>,
  { kind, zone }: Pick<Subject, "kind" | "zone">,
  say: Say,
): [Lined, string][] {
  const clock = kind === "formula" ? "the clock of each class" : `the clock in ${say.zoneName(zone)}`
  return [
    ["table", "the time it was wanted on the table"],
    ["start", "the start of fermentation"],
    ...[...stages.values()].map(({ key, name }): [Lined, string] => [`from-${key}`, `the start of ${name}`]),
    ["clock", clock],
    ["reference", "reference hours: temperature is taken out"],
  ]
}
