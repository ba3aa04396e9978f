import type { Bake, Photo } from "../bakes/queries.ts"
import type { Db } from "../db.ts"
import { listStagePictures, type StagePicture } from "../formulas/queries.ts"
import type { Look } from "../schema.ts"
import type { Viewer } from "../web/access.ts"
import { mayAsk } from "./access.ts"
import { listWishesOf } from "./queries.ts"

/** What the bench shows beside the camera: `of` a stage its looks and the newest photo of it, if somebody made any. */
export async function likenessOf(db: Db, viewer: Viewer, bake: Bake, photos: Photo[]) {
  const pictures = await listStagePictures(db, bake.formulaId)
  return {
    of: (stageKey: string) => likeOf(stageKey, pictures, photos),
    wishes: await listWishesOf(db, bake.id),
    mayAsk: await mayAsk(db, viewer, bake.id),
  }
}

function likeOf(stageKey: string, pictures: StagePicture[], photos: Photo[]) {
  const newest = (look: Look) => pictures.findLast((one) => one.stageKey === stageKey && one.look === look) ?? null
  const [ready, tooEarly, tooFar] = [newest("ready"), newest("too-early"), newest("too-far")]
  if (!ready && !tooEarly && !tooFar) return null
  return { ready, tooEarly, tooFar, yours: photos.findLast((photo) => photo.stageKey === stageKey) ?? null }
}
