import type { Say } from "../accounts/say.ts"
import { changeIn } from "../changes/words.ts"
import type { Laid } from "./laid.ts"
import { type Comparison, least, type Thing, type Two } from "./thing.ts"

/** What was done otherwise than the formula says, and the formula itself. */
export function formula({ earlier, later }: Two, say: Say): Pick<Comparison, "things" | "remarks"> {
  const said = ({ bake }: Laid) =>
    bake.changes
      .filter(({ kind, leaven }) => kind !== "oven" && !leaven)
      .map((change) => changeIn({ ...change, doneAt: null }, say))
  const [before, after] = [said(earlier), said(later)]
  const changed = [
    ...after
      .filter((words) => !before.includes(words))
      .map((words) => ({ words, earlier: "as written", later: words, by: "only now" })),
    ...before
      .filter((words) => !after.includes(words))
      .map((words) => ({ words, earlier: words, later: "as written", by: "only then" })),
  ].map(({ words, ...rest }): Thing => ({ key: `change ${words}`, name: "Otherwise than the formula", ...rest }))
  const [one, other] = [earlier.bake, later.bake]
  const asWritten = JSON.stringify(one.asWritten.parts) === JSON.stringify(other.asWritten.parts)
  // a change of the baker's own stands for what it does to the mix
  const mixed = asWritten && changed.length ? [] : mix({ earlier, later }, say)
  const unseen = !asWritten && !mixed.length && !changed.length && sameLeaven({ earlier, later })
  return {
    things: [...changed, ...mixed, ...(unseen ? [rewritten({ earlier, later })] : [])],
    remarks: [
      ...(one.revisionId === other.revisionId
        ? []
        : [`Revision ${one.revisionNumber} then, ${other.revisionNumber} now.`]),
      ...(one.way === other.way ? [] : [`Made ${one.way || "as written"} then, ${other.way || "as written"} now.`]),
    ],
  }
}

/** Lines that were changed, and none of what is reckoned from them. */
const rewritten = ({ earlier, later }: Two): Thing => ({
  ...{ key: "formula", name: "The formula’s lines", by: "see both revisions" },
  ...{ earlier: `revision ${earlier.bake.revisionNumber}`, later: `revision ${later.bake.revisionNumber}` },
})

const sameLeaven = ({ earlier, later }: Two) =>
  JSON.stringify(earlier.bake.raised.actual) === JSON.stringify(later.bake.raised.actual)

function mix({ earlier, later }: Two, say: Say): Thing[] {
  const [one, other] = [earlier.bake.mix, later.bake.mix]
  const shares: [string, number | undefined, number | undefined, number][] = [
    ["Water, of the flour", one.hydration, other.hydration, least.share],
    ["Salt, of the flour", one.salt, other.salt, least.salt],
  ]
  const told = shares.flatMap(([name, before, after, enough]): Thing[] => {
    if (before === undefined || after === undefined || Math.abs(after - before) < enough) return []
    const by = `${after > before ? "more" : "less"} by ${say.percent(Math.abs(after - before))} of the flour`
    return [{ key: name, name, earlier: say.percent(before), later: say.percent(after), by }]
  })
  const flours = [...new Set([...one.flours, ...other.flours].map(({ name }) => name))]
  const moved = flours.some((name) => Math.abs(shareOf(name, one) - shareOf(name, other)) >= least.flour)
  if (!moved) return told
  const words = (mix: typeof one) =>
    mix.flours.map(({ name, share }) => (share === undefined ? name : `${say.percent(share)} ${name}`)).join(", ")
  return [...told, { key: "flour", name: "Flour", earlier: words(one), later: words(other), by: "another mix" }]
}
const shareOf = (name: string, { flours }: Laid["bake"]["mix"]) => {
  const found = flours.find((flour) => flour.name === name)
  return found ? (found.share ?? 1) : 0
}
