import type { Say } from "../accounts/say.ts"
import { readStays } from "../dough/formula/parts.ts"
import { onScale, type Scale } from "../dough/formula/weighing.ts"
import { madeFor } from "../dough/levain/feeding.ts"
import type { Preferment } from "../dough/levain/part.ts"
import { hoursAt, yeastedHoursToRipe } from "../dough/levain/ripening.ts"
import { readMass, readTemperature } from "../dough/readings.ts"
import { exactlyFor, shownBy } from "../scaling/scales.ts"
import { sameAmount } from "../scaling/weighing.ts"
import type { Viewer } from "../web/access.ts"
import type { Typed } from "../web/forms.ts"

type Reader = { viewer: Viewer; scale: Scale; say: Say }

/** What is weighed for a poolish, biga or sponge, and how long it takes where our model of baker's yeast can say. */
export function yeastedPage({ lines, yeast }: Preferment, typed: Typed, { viewer, scale, say }: Reader) {
  const errors: Record<string, string> = {}
  const needed = readMass(typed.needed ?? "", viewer.massUnit)
  const sticks = readStays(typed.sticks ?? "")
  const at = readTemperature(typed.at ?? "", viewer.temperatureUnit, "levain")
  if ("error" in needed) errors.needed = needed.error
  if (!sticks) errors.sticks = "Give one percentage from 0 to below 100, or one mass."
  if ("error" in at) errors.at = at.error
  const madeG = "value" in needed && sticks ? madeFor(needed.value, sticks) : undefined
  return {
    kind: "yeasted" as const,
    form: { typed, errors },
    makes: madeG === undefined ? null : say.mass(madeG),
    things: madeG === undefined ? [] : lines.map(({ name, share }) => shownThing(name, share * madeG)),
    ripe: yeast !== undefined && "value" in at ? ripeWords(yeast, at.value, say) : null,
  }

  function shownThing(name: string, g: number) {
    const [shows, exactly] = [shownBy(scale, onScale(g, scale)), exactlyFor(scale, say.massUnit, say.mass)(g)]
    return { name, shows, exactly: sameAmount(shows, exactly) ? null : exactly }
  }
}

/** Doubled, as nothing is said; undefined hours are said to be unknown, which is not nothing. */
function ripeWords(share: number, atC: number, say: Say): string {
  const reference = yeastedHoursToRipe(share, 1)
  const ripe = reference && hoursAt(atC, reference, "baker's yeast")
  if (!reference)
    return "When it is ripe we cannot say: in so long a rest so little yeast multiplies, which our model of baker’s yeast leaves out. Go by its surface: domed, and just beginning to sink in the middle."
  if (!ripe) return "At that temperature baker’s yeast does nothing."
  return `By our model of baker’s yeast it has doubled in about ${say.hours(ripe.hours)} h at ${say.temperature(atC)}, likely ${say.hours(ripe.low)}–${say.hours(ripe.high)} h.`
}
