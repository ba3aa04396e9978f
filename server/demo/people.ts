import type { AllergenList, Allergies, Role } from "../schema.ts"

/** Hall, class and people are invented. */
export const hall = {
  ...{ name: "Saturday tins", place: "Heron Lane Hall", zone: "Europe/Lisbon" },
  allergenList: "eu" as AllergenList,
}
/** Everybody's, so that whoever tries the demo can be anybody. */
export const password = "heron-lane"

export type Person = {
  signInName: string
  shownName: string
  role?: Role
  zone?: string
  temperatureUnit?: "F"
  massUnit?: "oz"
  clock?: "12"
  allergies?: Allergies
}

export const owner: Person = { signInName: "osric", shownName: "Osric Vale" }

const abroad = "America/New_York"
export const members: Person[] = [
  { signInName: "marta", shownName: "Marta Quill", role: "instructor" },
  { signInName: "tobias", shownName: "Tobias Renn", role: "assistant" },
  ...[
    { signInName: "amparo", shownName: "Amparo L." },
    { signInName: "bodil", shownName: "Bodil H.", allergies: { keys: ["milk"], words: "" } },
    { signInName: "caspar", shownName: "Caspar W." },
    { signInName: "delphine", shownName: "Delphine O." },
    { signInName: "eamon", shownName: "Eamon R." },
    {
      signInName: "farida",
      shownName: "Farida N.",
      allergies: { keys: ["sesame", "tree nuts"], words: "bee products" },
    },
    { signInName: "gregor", shownName: "Gregor P." },
    { signInName: "hana", shownName: "Hana S.", zone: abroad },
    { signInName: "ivo", shownName: "Ivo T." },
    {
      signInName: "juno",
      shownName: "Juno B.",
      zone: abroad,
      temperatureUnit: "F" as const,
      massUnit: "oz" as const,
      clock: "12" as const,
    },
    { signInName: "kasimir", shownName: "Kasimir D." },
    { signInName: "lioba", shownName: "Lioba F.", zone: abroad },
  ].map((student) => ({ ...student, role: "student" as const })),
]
