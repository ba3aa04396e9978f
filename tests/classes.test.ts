import { eq } from "drizzle-orm"
import { classes } from "../server/schema.ts"
import { expect, test } from "./test.ts"
import { Visitor as Somebody, type Visitor, wordsOf } from "./visitor.ts"

const newcomer = { shownName: "Pia", signInName: "pia", password: "rye and caraway", zone: "America/Halifax" }

async function inviteStudents(ana: Visitor, classId: number) {
  await ana.submit(`/classes/${classId}/invitations`, { role: "student" })
  const { page } = await ana.open(`/classes/${classId}/invitations`)
  const url = new URL(wordsOf(page.querySelector("code.link")))
  return { path: url.pathname, page }
}

test("an instructor opens a class and is its first instructor", async ({ cast, db }) => {
  const made = await cast.ana.submit("/classes", { name: "Saturday rye", place: "Mill", zone: "UTC", shownName: "Ana" })
  expect(made.status).toBe(303)
  const { page } = await cast.ana.open(made.location!)
  expect(wordsOf(page.querySelector("h1"))).toBe("Saturday rye")
  expect(wordsOf(page.querySelector(".people"))).toBe("Ana instructor")
  expect(await db.query.classes.findFirst({ where: eq(classes.name, "Saturday rye") })).toMatchObject({
    place: "Mill",
    zone: "UTC",
  })
})

test("a class without a name gives the form back as typed", async ({ cast }) => {
  const { status, page } = await cast.ana.submit("/classes", {
    name: " ",
    place: "Mill",
    zone: "UTC",
    shownName: "Ana",
  })
  expect(status).toBe(422)
  expect(wordsOf(page.querySelector("#name-error"))).toBe("Name the class.")
  expect(page.querySelector("#place")?.getAttribute("value")).toBe("Mill")
})

test("a student opens the invitation, picks a name and a password, and is in", async ({ app, cast }) => {
  const { path, page } = await inviteStudents(cast.ana, cast.classId)
  expect(page.querySelector(".invitation img")?.getAttribute("src")).toMatch(/^data:image\/png;base64,/)
  const pia = new Somebody(app)
  expect(wordsOf((await pia.open(path)).page.querySelector("h1"))).toBe("Join Thursday bakers")

  expect(await pia.submit(path, newcomer)).toMatchObject({ status: 303, location: `/classes/${cast.classId}` })
  expect(wordsOf((await pia.open(`/classes/${cast.classId}`)).page.querySelector(".people"))).toContain("Pia")
})

test("joining with a name that is taken says which, and keeps the rest", async ({ app, cast }) => {
  const { path } = await inviteStudents(cast.ana, cast.classId)
  const pia = new Somebody(app)

  const shown = await pia.submit(path, { ...newcomer, shownName: "BEN" })
  expect(shown.status).toBe(422)
  expect(wordsOf(shown.page.querySelector("#shownName-error"))).toBe("Somebody in the class already has that name.")
  expect(shown.page.querySelector("#signInName")?.getAttribute("value")).toBe("pia")

  const signIn = await pia.submit(path, { ...newcomer, signInName: "Cleo" })
  expect(wordsOf(signIn.page.querySelector("#signInName-error"))).toContain("taken")
})

test("somebody with an account joins with it, and twice changes nothing", async ({ cast }) => {
  const { path } = await inviteStudents(cast.ana, cast.classId)
  expect((await cast.cleo.open(`/classes/${cast.classId}`)).status).toBe(404)
  for (const shownName of ["Cleo", "Cleopatra"]) {
    expect((await cast.cleo.submit(`${path}/with-my-account`, { shownName })).status).toBe(303)
  }
  expect(wordsOf((await cast.cleo.open(`/classes/${cast.classId}`)).page.querySelector(".people"))).toContain("Cleo")
})

test("a revoked invitation opens nothing", async ({ app, cast }) => {
  const { path, page } = await inviteStudents(cast.ana, cast.classId)
  await cast.ana.submit(page.querySelector("form[action$=revocation]")!.getAttribute("action")!)
  expect((await new Somebody(app).open(path)).status).toBe(404)
  expect((await new Somebody(app).submit(path, newcomer)).status).toBe(404)
})

test("an instructor makes a password link that works once", async ({ app, cast }) => {
  const { page } = await cast.ana.submit(`/classes/${cast.classId}/people/${cast.ben.id}/password-link`)
  const { pathname } = new URL(wordsOf(page.querySelector("#password-link")))
  const ben = new Somebody(app)

  expect((await ben.submit(pathname, { password: "tiny" })).status).toBe(422)
  expect((await ben.submit(pathname, { password: "seven grain bread" })).status).toBe(303)

  expect((await ben.open("/account")).status).toBe(200)
  expect((await ben.submit(pathname, { password: "eight grain bread" })).status).toBe(404)
  expect((await cast.ben.open("/account")).status).toBe(303)
})

test("an instructor cannot take over another teacher with a password link; the owner can help", async ({ cast }) => {
  const { path } = await inviteStudents(cast.ana, cast.classId)
  await cast.cleo.submit(`${path}/with-my-account`, { shownName: "Cleo" })
  const url = `/classes/${cast.classId}/people/${cast.cleo.id}/password-link`
  expect((await cast.ana.submit(url)).status).toBe(403)
  expect((await cast.olga.submit(url)).status).toBe(200)
})

test("roles change, but a class keeps an instructor", async ({ cast }) => {
  const people = `/classes/${cast.classId}/people`
  await cast.ana.submit(`${people}/${cast.ben.id}/role`, { role: "assistant" })
  expect(wordsOf((await cast.ana.open(`/classes/${cast.classId}`)).page.querySelector(".people"))).toContain(
    "Ben assistant",
  )

  const alone = await cast.ana.submit(`${people}/${cast.ana.id}/role`, { role: "student" })
  expect(alone.status).toBe(422)
  expect(wordsOf(alone.page.querySelector("#role-error"))).toBe("A class keeps at least one instructor.")
  expect((await cast.ana.submit(`${people}/${cast.ana.id}/removal`)).status).toBe(422)
  expect((await cast.ana.submit(`/classes/${cast.classId}/leaving`)).status).toBe(403)
})

test("whoever is taken out, or leaves, no longer finds the class", async ({ cast }) => {
  await cast.ana.submit(`/classes/${cast.classId}/people/${cast.ben.id}/removal`)
  await cast.bea.submit(`/classes/${cast.classId}/leaving`)
  for (const gone of [cast.ben, cast.bea]) expect((await gone.open(`/classes/${cast.classId}`)).status).toBe(404)
})

test("a name in the class can be changed, unless somebody has it", async ({ cast }) => {
  const url = `/classes/${cast.classId}`
  expect((await cast.ben.submit(`${url}/name`, { shownName: "bea" })).status).toBe(422)
  expect((await cast.ben.submit(`${url}/name`, { shownName: "Benedikt" })).status).toBe(303)
  expect(wordsOf((await cast.ben.open(url)).page.querySelector(".people"))).toContain("Benedikt")
})

test("cleo, who teaches elsewhere, finds nothing here", async ({ cast }) => {
  for (const path of ["", "/edit", "/people", "/invitations"]) {
    expect((await cast.cleo.open(`/classes/${cast.classId}${path}`)).status).toBe(404)
  }
})

test("what is no number is not found", async ({ cast }) => {
  for (const id of ["0", "-1", "1.5", "99999999999", "x", "%00"]) {
    expect((await cast.ana.open(`/classes/${id}`)).status, id).toBe(404)
  }
})

test("a refusal is a page in plain words, and still knows who one is", async ({ cast }) => {
  const { page } = await cast.cleo.open(`/classes/${cast.classId}`)
  expect(wordsOf(page.querySelector("#problem"))).toBe("There is nothing here, or it is not shared with you.")
  expect(wordsOf(page.querySelector("header .me"))).toBe("cleo")
  const forbidden = await cast.ben.open("/classes/new")
  expect(wordsOf(forbidden.page.querySelector("#problem"))).toBe("You may not do that here.")
})
