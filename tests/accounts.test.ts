import { makeLink } from "../server/accounts/queries.ts"
import { expect, test } from "./test.ts"
import { Visitor, wordsOf } from "./visitor.ts"

const account = { signInName: "olga", password: "four loaves a day", zone: "Europe/Lisbon" }

test("the setup link makes the owner's account, once", async ({ app, db }) => {
  const visitor = new Visitor(app)
  const url = `/setup/${await makeLink(db, { purpose: "setup" }, 1)}`
  expect(wordsOf((await visitor.open(url)).page.querySelector("h1"))).toBe("Set up Common Oven")

  const made = await visitor.submit(url, account)

  expect(made).toMatchObject({ status: 303, location: "/" })
  expect((await visitor.open("/account")).text).toContain("olga")
  expect((await new Visitor(app).submit(url, { ...account, signInName: "mallory" })).status).toBe(404)
})
