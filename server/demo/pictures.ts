import { type ProcessedPhoto, processPhoto } from "../photos/processing.ts"
import type { Look, photoSubjects } from "../schema.ts"
import type { Log } from "./bake-log.ts"
import { drawCrumb } from "./crumb-drawing.ts"
import { drawDoughJar } from "./jar-drawing.ts"
import { drawLoaf } from "./loaf-drawing.ts"
import type { Story } from "./stories.ts"

export type Picture = {
  subject: (typeof photoSubjects)[number]
  stageKey: string
  takenAt: Date
  photo: ProcessedPhoto
}

// Half of what a phone sends: a whole class is drawn in a few seconds.
const widthPx = 800
// A crumb is measured, which takes more.
const crumbWidthPx = 1280

/** What one student photographed; `seed` tells the students' loaves apart. */
export async function drawPicturesOf({ pictures = {} }: Story, log: Log, seed: number) {
  const { starter, crumb, loaf, jar } = pictures
  const drawn: Picture[] = []
  const keep = async (subject: Picture["subject"], stageKey: string, drawing: Promise<Buffer>, at?: Date) => {
    drawn.push({ subject, stageKey, takenAt: at ?? log.endOf(stageKey), photo: await processPhoto(await drawing) })
  }
  if (starter) await keep("starter", "ripen", drawDoughJar({ seed: seed + 500, rise: starter, widthPx }))
  if (jar) {
    const at = jar === true ? log.endOf("bulk") : log.momentIn("bulk", jar.afterMin)
    await keep("dough", "bulk", drawDoughJar({ seed, rise: log.riseAt(at), widthPx }), at)
  }
  if (loaf) await keep("crust", "bake", drawLoaf({ seed, proof: loaf, widthPx }))
  if (crumb) await keep("crumb", "cool", drawCrumb({ seed, proof: crumb, widthPx: crumbWidthPx }))
  return drawn
}

/** How the levain and the dough look when they are ready, and the dough too early and too far. */
export async function drawStagePictures() {
  const jar = async (stageKey: string, look: Look, seed: number, rise: number) => ({
    ...{ stageKey, look },
    photo: await processPhoto(await drawDoughJar({ seed, rise, widthPx })),
  })
  return [
    await jar("ripen", "ready", 101, 1.15),
    await jar("bulk", "ready", 102, 0.4),
    await jar("bulk", "too-early", 103, 0.12),
    await jar("bulk", "too-far", 104, 0.95),
  ]
}
