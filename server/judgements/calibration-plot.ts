import type { Calibration, CertaintyBin } from "../dough/verdict/calibration.ts"
import type { Plot } from "../plots/plot.ts"

/** How often verdicts held against how sure they said they were; only where there are enough to say. */
export function calibrationPlot({ bins }: Calibration): Plot | undefined {
  const told = bins.flatMap((bin) =>
    bin.held && bin.stated !== undefined ? [{ ...bin, ...bin.held, stated: bin.stated }] : [],
  )
  if (!told.length) return undefined
  return {
    title: "Said, and held",
    says: told.map(saidOf).join(" "),
    x: {
      label: "How sure the verdict said it was",
      unit: "%",
      from: 30,
      to: 100,
      digits: 0,
      ticks: ticks(40, 60, 80, 100),
    },
    y: {
      label: "How often the instructor agreed",
      unit: "%",
      from: 0,
      to: 100,
      digits: 0,
      ticks: ticks(0, 25, 50, 75, 100),
    },
    series: [
      {
        ...{ name: "as often as said", kind: "line", role: "target" },
        points: [30, 100].map((percent) => ({ x: percent, y: percent })),
      },
      {
        ...{ name: "agreed, with its 95 % range", kind: "dots", role: "own" },
        points: told.map(({ stated, share, range, right, count }) => ({
          ...{ x: 100 * stated, y: 100 * share, low: 100 * range.low, high: 100 * range.high },
          label: `${right} of ${count}`,
        })),
      },
    ],
    foot: "Ranges after Wilson 1927 (J Am Stat Assoc 22:209), 95 %. Verdicts are put together by how sure they were: below 50 %, 50 to 70, 70 to 85, and above.",
  }
}

const ticks = (...at: number[]) => at.map((percent) => ({ at: percent, label: String(percent) }))

const saidOf = ({ stated, right, count }: Pick<CertaintyBin, "right" | "count"> & { stated: number }) =>
  `Where the verdict was ${Math.round(100 * stated)} % sure on average, the instructor agreed in ${right} of ${count}.`

/** "50 to 70 %"; what lies at the ends of the scale has one end. */
export function percentsOf({ from, to }: Pick<CertaintyBin, "from" | "to">) {
  if (from < 0.4) return `below ${Math.round(100 * to)} %`
  if (to === 1) return `${Math.round(100 * from)} % and more`
  return `${Math.round(100 * from)} to ${Math.round(100 * to)} %`
}
