/** A part of a whole as a fraction: 0.02 is 2 %. The type check refuses a Percent in its place. */
export type Share = number & { readonly told?: "share" }
/** The same told in hundredths: 2 is 2 %. Only for showing and for reading what was typed. */
export type Percent = number & { readonly told?: "percent" }

/** 0.02 to 2. */
export const toPercent = (share: Share): Percent => share * 100
/** 2 to 0.02. */
export const toShare = (percent: Percent): Share => percent / 100

/** Two ends; `low === high` for a single value. */
export type Range<Amount extends number = number> = { low: Amount; high: Amount }
