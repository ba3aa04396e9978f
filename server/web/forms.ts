import { z } from "zod"

/** What a form view needs: the text as typed, and one message per field that failed. */
export type Form = { typed: Record<string, unknown>; errors: Record<string, string> }
export const blank: Form = { typed: {}, errors: {} }

/** A form that stands in the address, one text a field. */
export type Typed = Record<string, string>

/** What stands in an address; of a field that comes twice the last, and no more of any than somebody types. */
export function typedIn(query: unknown): Typed {
  const fields = Object.entries((query ?? {}) as Record<string, unknown>)
  return Object.fromEntries(fields.map(([name, value]) => [name, String([value].flat().at(-1) ?? "").slice(0, 80)]))
}

/** Reads a submitted form. `values` is set exactly when nothing failed. */
export function readForm<Shape extends z.ZodType>(
  shape: Shape,
  body: unknown,
): { values?: z.output<Shape>; form: Form } {
  const typed = (body ?? {}) as Form["typed"]
  const result = shape.safeParse(typed)
  if (result.success) return { values: result.data, form: { typed, errors: {} } }
  const errors = result.error.issues.map((issue) => [issue.path.join(".") || "form", issue.message]).reverse()
  return { form: { typed, errors: Object.fromEntries(errors) } }
}

/** The same form with one more message, for what only the database can know. */
export function refuse(form: Form, field: string, message: string): Form {
  return { typed: form.typed, errors: { ...form.errors, [field]: message } }
}

/** Required text; spaces around it are not kept. */
export const words = (message: string, most = 200) =>
  z.string({ error: message }).trim().min(1, message).max(most, `Keep it under ${most} characters.`)

/** Text that may be left out. */
export const maybeWords = (most = 2000) => z.string().trim().max(most, `Keep it under ${most} characters.`).default("")

/** A ticked box: browsers send nothing for one that is not. */
export const ticked = z.preprocess((value) => value === "on" || value === "yes", z.boolean())

/** A text field turned into a value by `read`, whose refusals become the field's message. */
export const readBy = <T>(read: (text: string) => { value: T } | { error: string }) =>
  z.string({ error: "Fill this in." }).transform((text, context) => {
    const result = read(text)
    if ("value" in result) return result.value
    context.addIssue({ code: "custom", message: result.error })
    return z.NEVER
  })

/** The same for a field that may stay blank, which reads as null. */
export const maybeReadBy = <T>(read: (text: string) => { value: T } | { error: string }) =>
  z
    .preprocess((text) => text ?? "", z.string())
    .transform((text, context) => {
      if (text.trim() === "") return null
      const result = read(text)
      if ("value" in result) return result.value
      context.addIssue({ code: "custom", message: result.error })
      return z.NEVER
    })
