import { z } from "zod"
import { words } from "../web/forms.ts"

export const commentForm = z.object({ words: words("Write something first.", 1000) })
