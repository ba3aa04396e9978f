import { z } from "zod"
import { words } from "../web/forms.ts"
import { isZone } from "../web/zones.ts"

/** NIST SP 800-63B section 3.1.1.2 (2025) asks for 15 characters where a password stands alone; its 2017 edition, and most classes, for 8. */
const password = z
  .string({ error: "Choose a password." })
  .min(8, "Use at least 8 characters.")
  .max(200, "Keep it under 200 characters.")
const signInName = words("Choose a name to sign in with.", 60).regex(/^\S+$/, "Use a name without spaces.")
export const zone = z.string({ error: "Choose a time zone." }).refine(isZone, "Choose a time zone from the list.")

export const newAccountForm = z.object({ signInName, password, zone })
export const signInForm = z.object({
  signInName: words("Give your sign-in name."),
  password: z.string({ error: "Give your password." }).min(1, "Give your password."),
  next: z.string().default("/"),
})
export const newPasswordForm = z.object({ password })
export const changePasswordForm = z.object({
  current: z.string({ error: "Give your present password." }).min(1, "Give your present password."),
  password,
})
export const preferencesForm = z.object({
  temperatureUnit: z.enum(["C", "F"], "Choose °C or °F."),
  massUnit: z.enum(["g", "oz"], "Choose grams or ounces."),
  measures: z.enum(["us", "us-label", "metric", "imperial"], "Choose the cups and spoons you write in."),
  clock: z.enum(["24", "12"], "Choose how clocks are shown to you.").optional(),
  zone,
})

/** A path of ours to go to after signing in; anything that could lead to another site becomes the front page. */
export const ownPath = (path: string) => (/^\/(?![/\\])[^\s\\]*$/.test(path) ? path : "/")
