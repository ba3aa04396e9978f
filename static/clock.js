// Times of day as this person's pages say them: 16:30, or 4:30 pm.
const { zone, clock } = document.body.dataset
const format = new Intl.DateTimeFormat("en-GB", {
  hour: clock === "12" ? "numeric" : "2-digit",
  minute: "2-digit",
  hour12: clock === "12",
  timeZone: zone,
})

/** The time of day of an instant: a Date or milliseconds. */
export const timeOf = (at) => format.format(at)
