type Known = { key: string; words: string; mm: number }

/**
 * Things whose size is fixed, for a photo's scale. Diameters of coins: US Mint, coin specifications (seen there); Regulation
 * (EU) No 729/2014 for euro coins (2, 1 and 0.50 seen in its summary, the others at second hand). Cards: ISO/IEC 7810, ID-1.
 */
export const knownLengths: Known[] = [
  { key: "card-wide", words: "bank or identity card, its long side, 85.60 mm", mm: 85.6 },
  { key: "card-high", words: "bank or identity card, its short side, 53.98 mm", mm: 53.98 },
  { key: "eur-2", words: "2 euro coin, across, 25.75 mm", mm: 25.75 },
  { key: "eur-1", words: "1 euro coin, across, 23.25 mm", mm: 23.25 },
  { key: "eur-0.50", words: "50 cent coin (euro), across, 24.25 mm", mm: 24.25 },
  { key: "eur-0.20", words: "20 cent coin (euro), across, 22.25 mm", mm: 22.25 },
  { key: "eur-0.10", words: "10 cent coin (euro), across, 19.75 mm", mm: 19.75 },
  { key: "eur-0.05", words: "5 cent coin (euro), across, 21.25 mm", mm: 21.25 },
  { key: "eur-0.02", words: "2 cent coin (euro), across, 18.75 mm", mm: 18.75 },
  { key: "eur-0.01", words: "1 cent coin (euro), across, 16.25 mm", mm: 16.25 },
  { key: "us-quarter", words: "US quarter, across, 24.26 mm", mm: 24.26 },
  { key: "us-dime", words: "US dime, across, 17.91 mm", mm: 17.91 },
  { key: "us-nickel", words: "US nickel, across, 21.21 mm", mm: 21.21 },
  { key: "us-cent", words: "US cent, across, 19.05 mm", mm: 19.05 },
  { key: "us-half", words: "US half dollar, across, 30.61 mm", mm: 30.61 },
  { key: "us-dollar", words: "US dollar coin, across, 26.49 mm", mm: 26.49 },
]
