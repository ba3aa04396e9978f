import type { AllergenList } from "../schema.ts"

/** Whose list of allergens most likely counts in a time zone: a first value, which an instructor changes. */
export function allergenListOf(zone: string): AllergenList {
  if (inTheUs.test(zone)) return "us"
  return zone.startsWith("Europe/") && !elsewhereInEurope.test(zone) ? "eu" : "both"
}

const inTheUs =
  /^(US\/.*|America\/(New_York|Detroit|Chicago|Denver|Boise|Phoenix|Los_Angeles|Anchorage|Juneau|Sitka|Metlakatla|Yakutat|Nome|Adak|Menominee|Puerto_Rico|Indiana\/.*|Kentucky\/.*|North_Dakota\/.*)|Pacific\/(Honolulu|Guam|Pago_Pago))$/
const elsewhereInEurope = /\/(Moscow|Kaliningrad|Samara|Saratov|Ulyanovsk|Volgograd|Astrakhan|Kirov|Istanbul|Minsk)$/
