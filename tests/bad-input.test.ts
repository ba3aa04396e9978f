import { randomUUID } from "node:crypto"
import type { FastifyInstance } from "fastify"
import { startBake } from "../server/bakes/queries.ts"
import { listClassIngredients } from "../server/ingredients/queries.ts"
import { changes, comments, photos, photoWishes, reminders } from "../server/schema.ts"
import { dayOf } from "../server/web/zones.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, test } from "./test.ts"

/** What a form may bring that no person meant: each has broken some service before. */
const oddities = ["x".repeat(20_000), "constructor", "+275760-09-13T00:00"]

test("NUL in any field of any form breaks nothing", async ({ app, cast }) => {
  for (const [url, fields] of await fillForms(app, cast)) {
    for (const name of Object.keys(fields)) {
      const { status } = await cast.ana.submit(url, { ...fields, [name]: "a\0b" })
      expect(status, `${name} of ${url}`).toBeLessThan(500)
    }
  }
})

test("nor does a field that holds something odd or comes twice, one field after another, or a body that is no form", async ({
  app,
  cast,
}) => {
  let nth = 0
  for (const [url, fields] of await fillForms(app, cast)) {
    for (const name of Object.keys(fields)) {
      const body = new URLSearchParams(fields)
      const oddity = oddities[nth++ % (oddities.length + 1)]
      if (oddity === undefined) body.append(name, "again")
      else body.set(name, oddity)
      expect((await cast.ana.submit(url, body)).status, `${name} of ${url}`).toBeLessThan(500)
    }
    const json = await cast.ana.send("POST", url, '{"__proto__":{}}', { "content-type": "application/json" })
    expect(json.status, url).toBe(415)
  }
})

test("an address with NUL in it is nobody's", async ({ cast }) => {
  for (const url of [
    "/join/%00",
    "/open/%00",
    "/feeds/%00.ics",
    "/setup/%00",
    "/classes/%00",
    "/photos/%00/small",
    "/photos/%00/crumb",
    "/sign-in?next=%00",
  ]) {
    expect((await cast.ana.open(url)).status, url).toBe(404)
  }
})

const picture = { subject: "dough" as const, takenAt: new Date(), forClass: true, width: 60, height: 40 }

const someOf = (fields: Record<string, string>, start: string) =>
  Object.fromEntries(Object.entries(fields).filter(([name]) => name.startsWith(start)))

/** Forms as they are rightly filled in; reading kinds share their URL. */
async function fillForms({ db }: FastifyInstance, cast: Cast): Promise<[string, Record<string, string>][]> {
  const { bakeDayId, formulaId, revisionId } = await giveBakeDay(db, cast)
  const bakeId = await startBake(db, { bakeDayId, revisionId, userId: cast.ben.id, onTableAt: new Date() })
  const group = { name: "Saturday rye", place: "Mill", zone: "UTC", allergenList: "both" }
  const bakeDay = {
    opensOn: "2027-01-01",
    closesOn: "2027-01-02",
    onTableTime: "18:00",
    lookFor: "",
    targetDoughC: "24",
    targetRise: "50 %",
  }
  const formula = {
    ...{ title: "Tin loaf", about: "", pan: "", pieces: "1", pieceMass: "900 g", change: "line:0" },
    ...{ "parts.0.key": "dough", "parts.0.name": "Dough", "parts.0.goesInto": "", "parts.0.staysPercent": "" },
    ...{ "parts.0.lines.0.quantity": "500 g", "parts.0.lines.0.ingredient": "flour", "parts.0.lines.0.countsAs": "" },
    ...{ "parts.0.lines.0.readAs": "4 cups", "parts.0.pasted": "1 tsp salt", measures: "us", pieceTolerance: "5 g" },
    ...{
      "finishing.0.quantity": "1",
      "finishing.0.ingredient": "egg",
      "variants.0.key": "rye",
      "variants.0.name": "Rye",
    },
    ...{ "variants.0.swaps.0.insteadOf": "dough/flour", "variants.0.swaps.0.lines.0.quantity": "500 g" },
    ...{ "variants.0.times.0.stageKey": "bulk", "variants.0.times.0.lasts": "2 h" },
    ...{
      "stages.0.key": "bulk",
      "stages.0.kind": "bulk",
      "stages.0.lasts": "4 h",
      "stages.0.reference": "24",
      "stages.0.handsOn": "",
    },
  }
  const imported = { pasted: "Loaf\n500 g flour\n1. Bake 40 min", which: "0", measures: "us" }
  const ingredient = {
    ...{ name: "Mill Lane flour", kind: "flour", water: "14", fat: "", sugar: "", protein: "12.5", salt: "0" },
    ...{ cup: "131", tbsp: "", tsp: "", pieceName: "scoop", piece: "85", remark: "", "us-6": "on" },
  }
  await cast.ana.submit(`/classes/${cast.classId}/ingredients`, { ...ingredient, name: "Old flour" })
  const [own] = await listClassIngredients(db, cast.classId)
  const ownBakeId = await startBake(db, { bakeDayId, revisionId, userId: cast.ana.id, onTableAt: new Date() })
  const [photo, ownPhoto] = await db
    .insert(photos)
    .values([
      { ...picture, bakeId, userId: cast.ben.id },
      { ...picture, subject: "crumb" as const, bakeId: ownBakeId, userId: cast.ana.id },
    ])
    .returning()
  const asked = { photoId: ownPhoto!.id, formulaId, stageKey: "bulk", look: "ready" as const, askedBy: cast.olga.id }
  const [wish] = await db.insert(photoWishes).values(asked).returning()
  const [question] = await db
    .insert(comments)
    .values({ bakeId, userId: cast.ben.id, words: "", asks: true })
    .returning()
  const [reminder] = await db
    .insert(reminders)
    .values({ bakeDayId, userId: cast.ana.id, sentBy: cast.ana.id })
    .returning()
  const changed = {
    "left-out": { of: "dough/water", outQuantity: "20 g", takeOut: "" },
    swapped: { of: "levain/", instead: "instant yeast", quantity: "4 g", outQuantity: "" },
    added: { what: "bread flour", instead: "", quantity: "40 g", into: "dough", at: "" },
    skipped: { stageKey: "shape" },
    oven: { words: "neighbour’s" },
    other: { words: "a pot" },
  }
  const [change] = await db
    .insert(changes)
    .values({ bakeId, kind: "added", instead: "water", quantity: "20 g", massG: 20 })
    .returning()
  const review = {
    ...{
      formId: "one",
      basedOn: "",
      over: "",
      title: "What we saw",
      words: "The **jar**.",
      nextTime: "",
      whatChanged: "a",
    },
    ...{ "bakes.0.id": String(bakeId), "bakes.0.show": "on", [`photos.${photo!.id}`]: "on", "plots.fermented": "on" },
    ...{ "pairs.0.left": String(bakeId), "pairs.0.right": String(ownBakeId), "pairs.0.why": "Two doughs." },
    ...{ [`students.${cast.bea.id}`]: "Well done.", showVerdicts: "on", showCauses: "on", move: `later ${bakeId}` },
  }
  const reading = {
    ...{ entryId: randomUUID(), value: "24", startHeight: "50", takenAt: "" },
    ...{ known: "measured", of: "levain" },
  }
  const kitchen = {
    ...{ temperatureUnit: "C", massUnit: "g", measures: "us", clock: "24", zone: "UTC", back: "/kitchen", weeks: "2" },
    ...{ room: "20", altitude: "650 m", flours: "rye", "busy.0.from": "09:00" },
  }
  const ownDay = {
    ...{ whole: "yes", day: dayOf(new Date(), "Europe/Lisbon"), time: "18:00", variant: "" },
    ...{ "place.bulk": "room", cold: "", coldFor: "8 h", feeding: "", "busy.0.from": "", take: '{"loads":2}' },
  }
  return [
    ["/sign-in", { signInName: "nobody", password: "rye and caraway", next: "/" }],
    ["/account/preferences", { temperatureUnit: "C", massUnit: "g", measures: "us", zone: "UTC" }],
    ["/kitchen", kitchen],
    ["/classes", { ...group, shownName: "Ana" }],
    [`/classes/${cast.classId}`, group],
    [`/classes/${cast.classId}/name`, { shownName: "Ana" }],
    [`/classes/${cast.classId}/allergies`, { allergies: "sesame", allergyWords: "kiwi" }],
    [`/classes/${cast.classId}/invitations`, { role: "student" }],
    [`/classes/${cast.classId}/people/${cast.bea.id}/role`, { role: "student" }],
    [`/classes/${cast.classId}/ingredients`, ingredient],
    [`/ingredients/${own!.id}`, ingredient],
    ["/formulas/figures", { title: "Tin loaf", ...someOf(formula, "parts.0.lines.0.") }], // read like the form below
    [`/formulas/${formulaId}`, formula],
    ["/formulas/import", { pasted: "500 g flour", which: "0", measures: "us" }],
    [
      "/formulas/import/draft",
      { ...imported, title: "Loaf", about: "", "stages.0.kind": "bake", "stages.0.lasts": "1 h" },
    ],
    [`/formulas/${formulaId}/revisions`, { whatChanged: "less water" }],
    ["/bake-days", { ...bakeDay, title: "Tin loaf", classId: String(cast.classId), revisionId: String(revisionId) }],
    [`/bake-days/${bakeDayId}/plan`, ownDay],
    [`/bake-days/${bakeDayId}/bringings?for=class&people=9&loss=3`, { thing: "salt", amount: "a bag" }],
    [`/bake-days/${bakeDayId}/reminders`, { userId: String(cast.bea.id), only: "", all: "", words: "Soon?" }],
    [`/reminders/${reminder!.id}/seen`, { back: "now" }],
    [`/bake-days/${bakeDayId}/class/draft`, { take: "length bulk" }],
    [`/bake-days/${bakeDayId}/review`, review],
    [
      `/bake-days/${bakeDayId}/review/editions`,
      { ...someOf(review, "bakes."), title: "What we saw", whatChanged: "a" },
    ],
    [`/bake-days/${bakeDayId}/review/comments`, { words: "Mine too." }],
    [`/bake-days/${bakeDayId}/bakes`, { for: String(cast.bea.id) }],
    [`/bakes/${bakeId}/marks`, { stageKey: "bulk", action: "start", at: "about 2" }],
    [`/bakes/${bakeId}/marks`, { stageKey: "bulk", action: "resume", at: "" }],
    [`/bakes/${bakeId}/marks/bulk`, { startedAt: "11:00", endedAt: "", pause0From: "", pause0To: "" }],
    [`/bakes/${bakeId}/marks/bulk/restoration`, { entryId: randomUUID() }],
    ...["dough", "rise", "finger", "ph", "fridge", "note"].map((kind): [string, Record<string, string>] => [
      `/bakes/${bakeId}/readings`,
      { ...reading, kind },
    ]),
    ...Object.entries(changed).map(([kind, fields]): [string, Record<string, string>] => [
      `/bakes/${bakeId}/changes`,
      { entryId: randomUUID(), kind, take: "", ...fields },
    ]),
    [`/bakes/${bakeId}/changes/${change!.id}`, { entryId: randomUUID(), ...changed.added }],
    [`/bakes/${bakeId}/changes/${change!.id}/removal`, { entryId: randomUUID() }],
    [`/bakes/${bakeId}/changes/${change!.id}/restoration`, { entryId: randomUUID() }],
    [`/bakes/${bakeId}/result`, { insideC: "96", doughMassG: "900", bakedMassG: "800", heightMm: "100", ownWords: "" }],
    [`/bakes/${bakeId}/pieces`, { pieceMasses: "92 88 95" }],
    [`/bakes/${bakeId}/judgements`, { entryId: randomUUID(), call: "over", explanation: "too wet", words: "It ran." }],
    [`/bakes/${bakeId}/cues`, { entryId: randomUUID(), vessel: "pot", cue: "dense" }],
    [`/bakes/${bakeId}/kitchen`, { kitchen: "cellar", shared: "on" }],
    [`/bakes/${bakeId}/photos`, { subject: "crumb", stageKey: "", takenAt: "" }],
    [`/bakes/${bakeId}/photos/${photo!.id}`, { entryId: randomUUID(), subject: "crumb", stageKey: "cool" }],
    [
      `/bakes/${bakeId}/photos/${photo!.id}/scale`,
      { entryId: randomUUID(), acrossMm: "", knownMm: "90 mm", knownPercent: "40 %" },
    ],
    [`/bakes/${bakeId}/comments`, { about: "bake", says: "says", words: "Bulk?", stageKey: "bulk" }],
    [`/bakes/${bakeId}/comments`, { about: `photo-${photo!.id}`, says: "settles" }],
    [`/questions/${question!.id}/answers`, { words: "Not yet." }],
    [
      `/photos/${ownPhoto!.id}/crumb/area`,
      { x1: "20", y1: "20", x2: "80", y2: "20", x3: "50", y3: "80", suggested: "" },
    ],
    [
      `/photos/${ownPhoto!.id}/crumb/ruler`,
      { fromX: "10", fromY: "10", toX: "60", toY: "10", known: "", length: "100 mm", none: "" },
    ],
    [`/photos/${ownPhoto!.id}/crumb/counts`, { left: "40", top: "40", right: "60", bottom: "60", count: "12" }],
    [`/bakes/${bakeId}/photos/${photo!.id}/wishes`, { stageKey: "bulk", look: "ready" }],
    [`/bakes/${ownBakeId}/wishes/${wish!.id}/answer`, { answer: "yes", look: "ready" }],
    [`/formulas/${formulaId}/stage-pictures`, { stageKey: "bulk" }],
  ]
}
