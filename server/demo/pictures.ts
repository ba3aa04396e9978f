import { type ProcessedPhoto, processPhoto } from "../photos/processing.ts"
import type { photoSubjects } from "../schema.ts"
import { drawCrumb } from "./crumb-drawing.ts"
import { drawDoughJar } from "./jar-drawing.ts"
import { drawLoaf } from "./loaf-drawing.ts"
import type { Story } from "./stories.ts"

export type Picture = { subject: (typeof photoSubjects)[number]; stageKey: string; photo: ProcessedPhoto }

// Half of what a phone sends: a whole class is drawn in a few seconds.
const widthPx = 800

/** What one student photographed; `seed` tells the students' loaves apart. */
export async function drawPicturesOf({ pictures = {} }: Story, riseAtShaping: number, seed: number) {
  const { crumb, loaf, jar } = pictures
  const drawn: Picture[] = []
  const keep = async (subject: Picture["subject"], stageKey: string, drawing: Promise<Buffer>) => {
    drawn.push({ subject, stageKey, photo: await processPhoto(await drawing) })
  }
  if (jar) await keep("dough", "bulk", drawDoughJar({ seed, rise: riseAtShaping, widthPx }))
  if (loaf) await keep("crust", "bake", drawLoaf({ seed, proof: loaf, widthPx }))
  if (crumb) await keep("crumb", "cool", drawCrumb({ seed, proof: crumb, widthPx }))
  return drawn
}

/** How the levain and the dough look when they are ready. */
export async function drawStagePictures() {
  const jar = async (stageKey: string, seed: number, rise: number) => ({
    stageKey,
    photo: await processPhoto(await drawDoughJar({ seed, rise, widthPx })),
  })
  return [await jar("ripen", 101, 1.15), await jar("bulk", 102, 0.4)]
}
