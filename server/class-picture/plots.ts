import { median } from "simple-statistics"
import type { CauseKey } from "../dough/causes/bake-causes.ts"
import { middleShare } from "../dough/class-picture/apart.ts"
import type { Explained, SpreadKey } from "../dough/class-picture/explained.ts"
import type { RobustLine } from "../dough/class-picture/line.ts"
import { namesAxis, niceAxis, reachOf } from "../plots/axes.ts"
import type { Plot, Series } from "../plots/plot.ts"
import type { ClassPicture, Timed } from "./picture.ts"

/** The time each dough took to its target against how warm it was, and the line through them where there is one. */
export function againstTemperature({ bakes, line }: Timed, targetWords: string): Plot {
  const xs = bakes.map(({ c }) => c)
  const [from, to] = [Math.min(...xs), Math.max(...xs)]
  const fitted = line.enough && to > from ? lineSeries(line.value, from, to) : []
  const own: Series = {
    ...{ name: "a bake", kind: "dots", role: "own" },
    points: bakes.map(({ name, c, hours }) => ({ x: c, y: hours, label: name })),
  }
  const series = [...fitted, own]
  return {
    title: `Time to ${targetWords} against temperature`,
    says: `${bakes.length} bakes: hours from the start of the bulk to ${targetWords}, against the dough’s mean temperature until then.`,
    x: niceAxis(...reachOf([own], "x"), { label: "Dough, mean until then", unit: "°C", digits: 1 }),
    y: niceAxis(...reachOf(series, "y"), { label: `Bulk to ${targetWords}`, unit: "h", digits: 1 }),
    series,
    foot: "The line is the median of the slopes between every two bakes (Theil 1950, Sen 1968), so that a few odd ones do not pull it; the band is what its slope’s 95 % limits leave open.",
  }
}

function lineSeries({ at, limitsAt }: RobustLine, from: number, to: number): Series[] {
  const xs = [from, (from + to) / 2, to]
  const band = xs.flatMap((x) => {
    const limits = limitsAt(x)
    return limits ? [{ x, y: limits.low, high: limits.high }] : []
  })
  const line: Series = { name: "the line", kind: "line", role: "fit", points: xs.map((x) => ({ x, y: at(x) })) }
  return band.length ? [{ name: "its 95 % limits", kind: "band", role: "limits", points: band }, line] : [line]
}

export const spreadNames: Record<SpreadKey, string> = {
  temperature: "Temperature",
  time: "Time",
  leaven: "Leaven",
  flour: "Flour",
}

/** How much of the spread of leads each thing explains, with what any one bake changes about it. */
export function explainedPlot({ parts, counted }: Explained): Plot {
  const percent = (share: number) => share * 100
  const series: Series[] = [
    {
      ...{ name: "share of the spread", kind: "bar", role: "own" },
      points: parts.map(({ share, low, high }, x) => ({
        x,
        y: percent(share),
        low: percent(low),
        high: percent(high),
      })),
    },
  ]
  return {
    title: "Share of the spread that each explains",
    says: `${parts.map(({ key, share }) => `${spreadNames[key]} ${Math.round(percent(share))} %`).join(", ")} of the spread between ${counted.length} bakes.`,
    x: namesAxis(
      "",
      parts.map(({ key }) => spreadNames[key]),
    ),
    y: niceAxis(...reachOf(series, "y"), { label: "Share of the spread", unit: "%", digits: 0 }, 4),
    series,
    turned: true,
    foot: "A share is the covariance of what one cause did with the whole lead, over the variance of the lead (Shorrocks 1982; it is also the Shapley value of that variance). Shares add up to 100 %; one below 0 evened the bakes out. The whisker reaches from the least to the most that comes of leaving any one bake out.",
  }
}

const causeHeads: Record<CauseKey, string> = {
  time: "time",
  temperature: "temperature",
  leaven: "amount of leaven",
  activity: "liveliness of leaven",
}

/** Every bake's lead with what it is made up of, the furthest on first, and the middle of the class. */
export function causesPlot({ led }: ClassPicture): Plot {
  const keys = Object.keys(causeHeads) as CauseKey[]
  const middle = Object.fromEntries(keys.map((key) => [key, middleShare(led, key)])) as Record<CauseKey, number>
  const series: Series[] = keys
    .filter((key) => led.some(({ causes }) => causes.shares.some((share) => share.key === key && share.min !== 0)))
    .map((key) => ({
      ...{ name: causeHeads[key], kind: "bar", role: "other", stacked: true },
      points: [
        ...led.map(({ causes }, x) => ({ x, y: causes.shares.find((share) => share.key === key)?.min ?? 0 })),
        { x: led.length, y: middle[key] },
      ],
    }))
  const whole: Series = {
    ...{ name: "the whole lead", kind: "dots", role: "own" },
    points: [
      ...led.map(({ causes }, x) => ({ x, y: causes.leadMin, low: causes.leadLowMin, high: causes.leadHighMin })),
      { x: led.length, y: median(led.map(({ causes }) => causes.leadMin)) },
    ],
  }
  return {
    title: "What each bake’s lead came from",
    says: `${led.length} bakes from the one furthest on at the oven to the one furthest behind, each with the minutes that time, temperature and leaven gave or took.`,
    x: namesAxis("", [...led.map(({ name }) => name), "Middle of the class"]),
    y: niceAxis(...reachOf([...series, whole], "y"), { label: "Lead over plan", unit: "min", digits: 0 }, 4),
    series: [...series, whole],
    turned: true,
    foot: "Minutes at the plan’s own pace. What brought a dough on lies to the right of 0, what held it back to the left; together they make up its lead exactly, which is the mark, with its 80 % range. What nobody could know is taken as planned, and counts as 0. The middles of the causes need not add up to the middle of the leads.",
  }
}
