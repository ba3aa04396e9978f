/**
 * What was written of crumbs of some breads, from scans of slices. From memory and by order of magnitude only: context for
 * a reader, never a measure of a bread or a test of our numbers.
 */
export const bands = [
  { bread: "white tin loaf", perCm2: "50–110", meanMm2: "0.4–1.0", share: "40–55 %", wallMm: "0.2–0.5" },
  { bread: "wholemeal tin loaf", perCm2: "40–100", meanMm2: "0.4–1.0", share: "30–45 %", wallMm: "0.3–0.6" },
  { bread: "sourdough hearth loaf", perCm2: "15–50", meanMm2: "1–4", share: "30–50 %", wallMm: "0.3–0.8" },
  {
    bread: "open, wet doughs",
    perCm2: "8–40",
    meanMm2: "1.5–6, single ones over 100",
    share: "30–55 %",
    wallMm: "0.2–0.8",
  },
]
