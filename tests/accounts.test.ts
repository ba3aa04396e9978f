import { eq } from "drizzle-orm"
import { hashPassword, isPassword } from "../server/accounts/passwords.ts"
import { addAccount, makeLink } from "../server/accounts/queries.ts"
import { oneTimeLinks, sessions, users } from "../server/schema.ts"
import { expect, test } from "./test.ts"
import { Visitor, wordsOf } from "./visitor.ts"

const password = "four loaves a day"
const account = { signInName: "olga", password, zone: "Europe/Lisbon" }
const withPassword = async () => ({ signInName: "piet", passwordHash: await hashPassword(password), zone: "UTC" })

test("the setup link makes the owner's account, once", async ({ app, db }) => {
  const visitor = new Visitor(app)
  const url = `/setup/${await makeLink(db, { purpose: "setup" }, 1)}`
  expect(wordsOf((await visitor.open(url)).page.querySelector("h1"))).toBe("Set up Common Oven")

  const made = await visitor.submit(url, account)

  expect(made).toMatchObject({ status: 303, location: "/" })
  expect((await visitor.open("/account")).text).toContain("olga")
  expect((await new Visitor(app).submit(url, { ...account, signInName: "mallory" })).status).toBe(404)
  expect(await db.$count(users)).toBe(1)
})

test("a second setup link is worthless once there is an owner", async ({ db, cast }) => {
  const url = `/setup/${await makeLink(db, { purpose: "setup" }, 1)}`
  expect((await cast.stranger.submit(url, { ...account, signInName: "mallory" })).status).toBe(404)
  expect(await db.query.users.findFirst({ where: eq(users.signInName, "mallory") })).toBeUndefined()
})

test("a link that has run out, or was never made, opens nothing", async ({ app, db }) => {
  const visitor = new Visitor(app)
  const token = await makeLink(db, { purpose: "setup" }, 1)
  await db.update(oneTimeLinks).set({ expiresAt: new Date(0) })
  expect((await visitor.open(`/setup/${token}`)).status).toBe(404)
  expect((await visitor.open("/setup/guess")).status).toBe(404)
})

test("the setup form gives back what was typed, but never a password", async ({ app, db }) => {
  const visitor = new Visitor(app)
  const url = `/setup/${await makeLink(db, { purpose: "setup" }, 1)}`

  const { status, page, text } = await visitor.submit(url, {
    signInName: "olga the owner",
    password: "short",
    zone: "Mars/Olympus",
  })

  expect(status).toBe(422)
  expect(wordsOf(page.querySelector("#signInName-error"))).toBe("Use a name without spaces.")
  expect(wordsOf(page.querySelector("#password-error"))).toBe("Use at least 8 characters.")
  expect(wordsOf(page.querySelector("#zone-error"))).toBe("Choose a time zone from the list.")
  expect(page.querySelector("#signInName")?.getAttribute("value")).toBe("olga the owner")
  expect(text).not.toContain("short")
})

test("signing in needs the right name and password, and leads back to where one wanted to go", async ({ app, db }) => {
  await addAccount(db, await withPassword())
  const piet = new Visitor(app)
  expect(await piet.open("/account")).toMatchObject({ status: 303, location: "/sign-in?next=%2Faccount" })

  const wrong = await piet.submit("/sign-in", { signInName: "piet", password: "three loaves" })
  expect(wordsOf(wrong.page.querySelector("#password-error"))).toBe("That name and password do not go together.")
  const unknown = await piet.submit("/sign-in", { signInName: "nobody", password })
  expect(wordsOf(unknown.page.querySelector("#password-error"))).toBe("That name and password do not go together.")

  expect(await piet.submit("/sign-in", { signInName: "PIET", password, next: "/account" })).toMatchObject({
    status: 303,
    location: "/account",
  })
  expect((await piet.open("/account")).status).toBe(200)
  await piet.submit("/sign-out")
  expect((await piet.open("/account")).status).toBe(303)
})

test.each(["https://elsewhere.example", "//elsewhere.example", "/\\elsewhere.example", "javascript:alert(1)"])(
  "signing in never leads to %s",
  async (next) => {
    const { ownPath } = await import("../server/accounts/forms.ts")
    expect(ownPath(next)).toBe("/")
  },
)

test("after ten tries a name has to wait", async ({ app }) => {
  const visitor = new Visitor(app)
  for (let tries = 0; tries < 10; tries++) await visitor.submit("/sign-in", { signInName: "piet", password: "" })
  expect((await visitor.submit("/sign-in", { signInName: "piet", password: "" })).status).toBe(429)
  expect((await visitor.submit("/sign-in", { signInName: "bea", password: "" })).status).toBe(422)
})

test("a new password ends every other session", async ({ app, db }) => {
  await addAccount(db, await withPassword())
  const [phone, laptop] = [new Visitor(app), new Visitor(app)]
  for (const device of [phone, laptop]) await device.submit("/sign-in", { signInName: "piet", password })

  const wrong = await phone.submit("/account/password", { current: "three loaves", password: "five loaves a day" })
  expect(wordsOf(wrong.page.querySelector("#current-error"))).toBe("That is not your present password.")
  expect((await phone.submit("/account/password", { current: password, password: "five loaves a day" })).status).toBe(
    303,
  )

  expect((await phone.open("/account")).status).toBe(200)
  expect((await laptop.open("/account")).status).toBe(303)
  const user = await db.query.users.findFirst({ where: eq(users.signInName, "piet") })
  expect(await isPassword(user!.passwordHash, "five loaves a day")).toBe(true)
})

test("passwords are kept as argon2id at OWASP's parameters", async () => {
  expect(await hashPassword(password)).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/)
})

test("units and time zone are the person's own", async ({ cast }) => {
  await cast.ben.submit("/account/preferences", {
    temperatureUnit: "F",
    massUnit: "oz",
    measures: "metric",
    zone: "America/Halifax",
  })
  const { page } = await cast.ben.open("/account")
  const chosen = ["temperatureUnit", "massUnit", "measures", "zone"].map((name) =>
    page.querySelector(`#${name} option[selected]`)?.getAttribute("value"),
  )
  expect(chosen).toEqual(["F", "oz", "metric", "America/Halifax"])
})

test("a form posted from another site's page is refused", async ({ cast, app }) => {
  const session = await app.people.createSession(cast.ben.id, {})
  const post = (headers: Record<string, string>) =>
    app.inject({
      method: "POST",
      url: "/sign-out",
      headers: { cookie: `common_oven=${session.id}`, host: "oven.example", ...headers },
    })
  expect((await post({ origin: "https://elsewhere.example" })).statusCode).toBe(403)
  expect((await post({ "sec-fetch-site": "cross-site" })).statusCode).toBe(403)
  expect((await post({ "sec-fetch-site": "same-site", origin: "http://other.oven.example" })).statusCode).toBe(403)
  expect((await post({ origin: "null" })).statusCode).toBe(403)
  expect((await post({ origin: "http://oven.example" })).statusCode).toBe(303)
})

test("a session that has run out is nobody's", async ({ cast, db }) => {
  await db
    .update(sessions)
    .set({ expiresAt: new Date(0) })
    .where(eq(sessions.userId, cast.ben.id))
  expect((await cast.ben.open("/account")).status).toBe(303)
})

test("htmx is told to leave for the sign-in page rather than to swap it in", async ({ app }) => {
  const response = await app.inject({ url: "/account", headers: { "hx-request": "true" } })
  expect(response).toMatchObject({ statusCode: 401, headers: { "hx-redirect": "/sign-in" } })
})

test("the owner helps somebody who is in no class any more", async ({ app, cast }) => {
  await cast.ben.submit(`/classes/${cast.classId}/leaving`)
  expect(wordsOf((await cast.olga.open("/accounts")).page.querySelector(".rows"))).toContain("ben in no class")
  const { page } = await cast.olga.submit(`/accounts/${cast.ben.id}/password-link`)
  const { pathname } = new URL(wordsOf(page.querySelector("#password-link")))
  expect((await new Visitor(app).submit(pathname, { password: "seven grain bread" })).status).toBe(303)
})
