import type { AllergenList } from "../schema.ts"
import { type Caution, listed } from "./caution.ts"

// FDA, "Handling flour safely: what you need to know" (5 December 2023): raw flour carries E. coli and Salmonella, and
// heating it at home does not make it safe. Raw egg: FDA, Key Temperatures for Egg Safety.
export const raw = (egg: boolean): Caution => ({
  key: "raw",
  title: "Do not taste raw",
  words: `Raw flour${egg ? " and raw egg" : ""} can carry germs that only baking kills; warming flour in the oven at home does not. Taste nothing before it is baked, and wash hands and tools.${egg ? " Brush egg on before the bread goes in, never after, and throw away what is left." : ""}`,
  short: `Taste nothing raw: flour${egg ? " and egg" : ""} can carry germs. Wash hands and tools.`,
})

// Cold and hot holding: US FDA Food Code, section 3-501.16. At home: USDA Food Safety and Inspection Service.
export const coldFood = (names: string[]): Caution => ({
  key: "cold-food",
  title: "May have to be kept cold",
  words: `${capital(listed(names))}: bread with such things in or on it may not keep in a cupboard. A food business in the US keeps them at or below 5 °C (41 °F), or at or above 57 °C (135 °F) (FDA Food Code 3-501.16); at home the advice is 2 hours out of the cold in all, 1 hour above 32 °C (90 °F) (USDA FSIS). Whether yours is one of them is not ours to say: follow your local rules.`,
  short: `${capital(listed(names))}: may have to be kept cold once baked; follow your local rules.`,
})

// INSPQ (Québec public health); UF/IFAS EDIS AA142; California Department of Public Health, on infant botulism.
export const honey: Caution = {
  key: "honey",
  title: "Honey",
  words: "Not for infants under 12 months, not even baked: the spores that make them ill survive an oven.",
  short: "Honey: not for infants under 12 months, not even baked.",
}

// 21 CFR 184.1763 lets lye onto food; goggles, gloves and the order of mixing are common practice, no published source.
export const lye: Caution = {
  key: "lye",
  title: "Lye burns",
  words:
    "Wear goggles and gloves, keep others away, and stir lye into cold water, never water into lye. On skin or in an eye: rinse at once for 15 to 20 minutes and get help.",
  short: "Lye: goggles, gloves, lye into cold water. Rinse skin or eyes 15–20 min and get help.",
}

// Common practice, no published source.
export const heat: Caution = {
  key: "heat",
  title: "Steam and hot iron",
  words:
    "A lid or an oven door opened lets out steam that scalds, and hot iron looks like cold iron. Dry, thick gloves, no damp cloth; face away; a place ready to set it down. No cold water on hot glass, and paper only up to the heat printed on it.",
  short: "Steam scalds and hot iron looks cold: dry thick gloves, face away, no water on hot glass.",
}

const elsewhere = "ask the authority where you are before you sell or hand out"
// Cottage-food law differs by state, and no table of it is kept here. UK: food prepacked for direct sale, from 1 October 2021.
const rules: Record<AllergenList, string> = {
  us: "in the US a state’s cottage-food law says which home-baked goods may be sold, how labelled and with which licence",
  eu: "in the EU and the UK whoever sells regularly is a food business, and allergens have to be told; in the UK, what is packed before it is sold needs all ingredients, with allergens standing out",
  both: "in the US a state’s cottage-food law, in the EU and the UK food law says what may be sold and how allergens are told",
}
export const sharing = (list: AllergenList): Caution => ({
  key: "sharing",
  title: "Selling it, giving it away",
  words: `Rules differ by place: ${rules[list]}. Nothing here is legal advice: ${elsewhere}, and tell whoever eats it what is in it.`,
  short: "Before selling or handing it out: follow your local rules, and tell what is in it.",
})

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)
