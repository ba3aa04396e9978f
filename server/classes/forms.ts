import { z } from "zod"
import { newAccountForm, zone } from "../accounts/forms.ts"
import { allergiesShape } from "../allergies/forms.ts"
import { allergenLists, roles } from "../schema.ts"
import { words } from "../web/forms.ts"

const shownName = words("Choose the name the class sees.", 60)

export const classForm = z.object({
  name: words("Name the class.", 100),
  place: words("Say where the class meets.", 100),
  zone,
  allergenList: z.enum(allergenLists, "Choose whose list of allergens counts.").optional(),
})
export const newClassForm = classForm.extend({ shownName })
export const roleForm = z.object({ role: z.enum(roles, "Choose what this person is in the class.") })
export const nameForm = z.object({ shownName })
export const joinForm = nameForm.extend(allergiesShape)
export const joinAsNewForm = newAccountForm.extend({ shownName, ...allergiesShape })
