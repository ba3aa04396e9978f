import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import { bakes, judgements } from "../server/schema.ts"
import { error, started } from "./bench.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { addBake, cold, warm } from "./reviews/class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

/** Ben bakes to plan, Bea in a cold kitchen. */
async function twoBakes(db: Db, cast: Cast) {
  const day = await giveBakeDay(db, cast)
  const bens = await addBake(db, day, cast.ben.id, warm)
  const beas = await addBake(db, day, cast.bea.id, cold)
  return { day, bens, beas, bensUrl: `/bakes/${bens}`, beasUrl: `/bakes/${beas}` }
}

const judge = (who: Visitor, url: string, fields: Record<string, string>) =>
  who.submit(`${url}/judgements`, { entryId: randomUUID(), ...fields })
const verdict = (who: Visitor, url: string) => who.open(`${url}/verdict`)
const beside = ({ page }: Page) => page.querySelectorAll(".beside > div").map(wordsOf)
const history = ({ page }: Page) => page.querySelectorAll("#judgements .said > li").map(wordsOf)

test("a bake's verdict stands with its chances, all that pulls at it, and what else may explain the bread", async ({
  db,
  cast,
}) => {
  const { beasUrl } = await twoBakes(db, cast)
  const { status, page } = await verdict(cast.ben, beasUrl)
  expect(status).toBe(200)
  expect(wordsOf(page.querySelector("h1"))).toBe("Underproofed")
  expect(page.querySelector(".large-hill svg")?.getAttribute("aria-label")).toMatch(
    /^under 9\d %, well <?\d %, over <?\d %$/,
  )
  const evidence = page.querySelectorAll(".evidence > li").map(wordsOf)
  expect(evidence[0]).toBe("Risen by 10 % against a target of 50 % pulls strongly toward under")
  expect(evidence).toContain("4.2 reference hours against 7.3 planned pulls strongly toward under")
  expect(evidence.at(-1)).toMatch(/^All together under 9\d %/)
  expect(page.text).toMatch(/Risen by 10 % against a target of 50 %:\s+our own judgement/)
  const suspects = page.querySelectorAll(".suspects > li")
  expect(wordsOf(suspects[0]!.querySelector("h3"))).toMatch(/^Underproofed \d+ %$/)
  for (const suspect of suspects) expect(wordsOf(suspect)).toMatch(/To tell .{10}/)
})

test("a bake that went by its plan has nothing wrong", async ({ db, cast }) => {
  const { bensUrl } = await twoBakes(db, cast)
  const { page } = await verdict(cast.ben, bensUrl)
  expect(wordsOf(page.querySelector("h1"))).toBe("Well proofed")
  expect(wordsOf(page.querySelector(".named"))).toBe("Nothing is wrong with it, as far as this tells.")
})

test("what was ticked is evidence", async ({ db, cast }) => {
  const { bensUrl } = await twoBakes(db, cast)
  await cast.ben.submit(`${bensUrl}/cues`, { entryId: randomUUID(), vessel: "hearth", cue: "deflated" })
  const evidence = (await verdict(cast.ben, bensUrl)).page.querySelectorAll(".evidence > li").map(wordsOf)
  expect(evidence.filter((words) => /^It deflated when it was moved or scored pulls .* over/.test(words))).toHaveLength(
    1,
  )
})

test("without facts there is not enough to say, and the way to what would help most", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await db.update(bakes).set({ finishedAt: new Date() }).where(eq(bakes.id, id))
  const { page } = await verdict(cast.ben, url)
  expect(wordsOf(page.querySelector("h1"))).toBe("Not enough to say")
  expect(wordsOf(page.querySelector(".note"))).toMatch(/would help most\. Say it on the bench$/)
  expect(page.querySelector(".note a")?.getAttribute("href")).toMatch(new RegExp(`^${url}#\\w`))
  expect((await verdict(cast.bea, url)).page.querySelector(".note a")).toBeNull()
})

test("a dough on its way has no verdict yet, and nobody is asked for theirs", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await cast.ben.submit(`${url}/marks`, { stageKey: "bulk", action: "start", at: "" })
  const { page } = await verdict(cast.ben, url)
  expect(wordsOf(page.querySelector("h1"))).toBe("Not at the oven yet")
  expect(page.querySelector("#judgements form")).toBeNull()
})

test("the baker's word and the instructor's stand beside the model's", async ({ db, cast }) => {
  const { bensUrl } = await twoBakes(db, cast)
  const mine = { call: "over", explanation: "too wet", words: "It ran." }
  const { status, location } = await judge(cast.ben, bensUrl, mine)
  expect([status, location]).toEqual([303, `${bensUrl}/verdict#judgements`])
  await judge(cast.ana, bensUrl, { call: "well" })

  expect(beside(await verdict(cast.bea, bensUrl))).toEqual([
    "The model well proofed",
    "Ben overproofed Too wet for this flour “It ran.”",
    "Instructor, Ana well proofed",
  ])
  expect(beside(await verdict(cast.ben, bensUrl))[1]).toMatch(/^You overproofed/)
})

test("the table shows both words beside the model's, and leads to all of it", async ({ db, cast }) => {
  const { day, bens, beas, bensUrl, beasUrl } = await twoBakes(db, cast)
  await judge(cast.ben, bensUrl, { call: "unsure" })
  await judge(cast.ana, bensUrl, { call: "well" })
  const { page } = await cast.bea.open(`/bake-days/${day.bakeDayId}/table`)
  const cell = (id: number) => page.querySelector(`#bake-${id} td.verdict`)!
  expect(wordsOf(cell(bens))).toMatch(/ baker: cannot tell instructor: well proofed$/)
  expect(wordsOf(cell(beas))).not.toMatch(/baker|instructor/)
  expect(cell(beas).querySelector("a")?.getAttribute("href")).toBe(`${beasUrl}/verdict`)
})

test("the model's word of that moment stays with a judgement", async ({ db, cast }) => {
  const { bensUrl, bens } = await twoBakes(db, cast)
  await judge(cast.ana, bensUrl, { call: "over" })
  await cast.ben.submit(`${bensUrl}/cues`, { entryId: randomUUID(), vessel: "", cue: "deflated" })
  const [kept] = await db.query.judgements.findMany({ where: eq(judgements.bakeId, bens) })
  expect(kept!.model!.well).toBeGreaterThan(0.6)
  expect(kept!.model!.under + kept!.model!.well + kept!.model!.over).toBeCloseTo(1, 6)
  expect(kept!.model!.suspect).toBe("nothing wrong")
  expect(history(await verdict(cast.bea, bensUrl))[0]).toMatch(
    /The model then: under <?\d+ %, well \d+ %, over <?\d+ %\.$/,
  )
})

test("the newest word stands, the earlier one is kept, and what is taken back stands no more", async ({ db, cast }) => {
  const { bensUrl, bens } = await twoBakes(db, cast)
  await judge(cast.ben, bensUrl, { call: "over" })
  await judge(cast.ben, bensUrl, { call: "unsure" })
  const page = await verdict(cast.ben, bensUrl)
  expect(beside(page)[1]).toBe("You cannot tell")
  expect(history(page).map((words) => words.replace(/ The model.*/, ""))).toEqual([
    expect.stringMatching(/^You, who baked it · .* · before overproofed\.$/),
    expect.stringMatching(/^You, who baked it · \S.* cannot tell\.$/),
  ])

  const [, last] = await db.query.judgements.findMany({ where: eq(judgements.bakeId, bens) })
  const removal = `${bensUrl}/judgements/${last!.id}/removal`
  expect((await cast.ana.submit(removal)).status).toBe(403)
  expect((await cast.ben.submit(removal)).status).toBe(303)
  const after = await verdict(cast.ben, bensUrl)
  expect(beside(after)[1]).toBe("You overproofed")
  expect(history(after)[1]).toContain("taken back")
})

test("an assistant and a classmate have no say, and see it", async ({ db, cast }) => {
  const { bensUrl } = await twoBakes(db, cast)
  for (const who of [cast.asta, cast.bea]) {
    expect((await judge(who, bensUrl, { call: "well" })).status).toBe(403)
    expect((await verdict(who, bensUrl)).page.querySelector("#judgements form")).toBeNull()
  }
})

test("without a choice nothing is kept, and the words stay", async ({ db, cast }) => {
  const { bensUrl } = await twoBakes(db, cast)
  const refused = await judge(cast.ben, bensUrl, { words: "Hm.", explanation: "moonlight" })
  expect(refused.status).toBe(422)
  expect(error(refused, "call")).toBe("Choose one of these.")
  expect(error(refused, "explanation")).toBe("Choose one of the list, or nothing.")
  expect(wordsOf(refused.page.querySelector("#words"))).toBe("Hm.")
  expect(await db.$count(judgements)).toBe(0)
})

test("a word that is sent twice is one", async ({ db, cast }) => {
  const { bensUrl } = await twoBakes(db, cast)
  const form = { entryId: randomUUID(), call: "well" }
  await Promise.all([judge(cast.ben, bensUrl, form), judge(cast.ben, bensUrl, form)])
  expect(await db.$count(judgements)).toBe(1)
})

test("a bake that is not shared has its verdict for its baker and the staff alone", async ({ db, cast }) => {
  const { bens, bensUrl } = await twoBakes(db, cast)
  await db.update(bakes).set({ shared: false }).where(eq(bakes.id, bens))
  const met = [cast.ben, cast.ana, cast.asta, cast.bea, cast.dan].map(
    async (who) => (await verdict(who, bensUrl)).status,
  )
  expect(await Promise.all(met)).toEqual([200, 200, 200, 404, 404])
})

/** So many bakes of which the model said "over" with this certainty, and the instructor the same or not. */
async function corrected(
  db: Db,
  cast: Cast,
  day: { bakeDayId: number; revisionId: number },
  stated: number,
  right: number,
  wrong: number,
) {
  const said = { under: 0, well: 1 - stated, over: stated, suspect: "overproofed" }
  for (const call of [...Array(right).fill("over"), ...Array(wrong).fill("well")] as ("over" | "well")[]) {
    const bakeId = await addBake(db, day, cast.ben.id, warm)
    await db.insert(judgements).values({ bakeId, userId: cast.ana.id, by: "instructor", call, model: said })
  }
}

test("a class sees how often the instructor agreed, by how sure the model was", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  await corrected(db, cast, day, 0.8, 4, 2)
  await corrected(db, cast, day, 0.95, 7, 1)
  await corrected(db, cast, day, 0.6, 1, 0)
  const { page } = await cast.bea.open(`/classes/${cast.classId}/calibration`)
  expect(wordsOf(page.querySelector(".big"))).toBe("Agreed in 12 of 15")
  // Wilson, 95 %: 4 of 6 is 30 to 90 %, 7 of 8 is 53 to 98 %
  expect(page.querySelectorAll(".bins tbody tr").map(wordsOf)).toEqual([
    "below 50 % – 0 of 0 – –",
    "50 to 70 % 60 % 1 of 1 – too few to say",
    "70 to 85 % 80 % 4 of 6 67 %, 30 % to 90 % as often as it said",
    "85 % and more 95 % 7 of 8 88 %, 53 % to 98 % as often as it said",
  ])
  expect(page.querySelectorAll("#calibration .drawn-numbers td").map(wordsOf).slice(2)).toEqual([
    "67 (30 to 90), 4 of 6",
    "88 (53 to 98), 7 of 8",
  ])
  expect(page.querySelector(".rows")).toBeNull()
})

test("few corrections are counted, and nothing is said of them", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  await corrected(db, cast, day, 0.8, 2, 1)
  const { page } = await cast.ben.open(`/classes/${cast.classId}/calibration`)
  expect(wordsOf(page.querySelector(".big"))).toBe("Agreed in 2 of 3 Too few to say anything of it: 8 are needed.")
  expect(page.querySelector("#calibration")).toBeNull()
})

test("only an instructor's standing word on a bake of the class counts, and the staff see which", async ({
  db,
  cast,
}) => {
  const { bens, bensUrl, beasUrl } = await twoBakes(db, cast)
  await judge(cast.ben, bensUrl, { call: "over" })
  await judge(cast.ana, bensUrl, { call: "under" })
  await judge(cast.ana, bensUrl, { call: "well" })
  await judge(cast.ana, beasUrl, { call: "unsure" })
  const url = `/classes/${cast.classId}/calibration`
  const { page } = await cast.asta.open(url)
  expect(wordsOf(page.querySelector(".big"))).toMatch(/^Agreed in 1 of 1 /)
  expect(page.querySelectorAll(".rows a").map((link) => link.getAttribute("href"))).toEqual([`/bakes/${bens}/verdict`])
  expect(wordsOf(page.querySelector(".rows"))).toMatch(/^Ben, Tin loaf week .* instructor: well proofed · agreed$/)
  expect(page.text).toContain("One more bake was judged and is not counted")

  const said = await db.query.judgements.findMany({ where: eq(judgements.bakeId, bens) })
  await cast.ana.submit(`${bensUrl}/judgements/${said.at(-1)!.id}/removal`)
  expect(wordsOf((await cast.asta.open(url)).page.querySelector(".rows"))).toMatch(
    /instructor: underproofed · corrected$/,
  )
  expect(wordsOf((await cast.cleo.open(`/classes/${cast.otherClassId}/calibration`)).page)).toContain(
    "No instructor has said anything",
  )
})
