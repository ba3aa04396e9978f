import { parse } from "node-html-parser"
import { htmlOf, openingOf, wallsOf } from "../../server/reviews/markdown.ts"
import { expect, test } from "../test.ts"

/** What has run scripts in some page before, in HTML, in links, and where the two meet. */
const hostile = [
  "<script>alert(1)</script>",
  "<img src=x onerror=alert(1)>",
  "<svg/onload=alert(1)>",
  "<a href='javascript:alert(1)'>x</a>",
  "<div hx-get='/account' hx-trigger='load'>x</div>",
  "<!-- --><style>body{display:none}</style>",
  "[x](javascript:alert(1))",
  "[x](JaVaScRiPt:alert(1))",
  "[x](java\tscript:alert(1))",
  "[x](&#106;avascript:alert(1))",
  "[x](javascript&colon;alert(1))",
  "[x](vbscript:msgbox(1))",
  "[x](data:text/html;base64,PHNjcmlwdD4=)",
  "[x](//elsewhere.example/x)",
  "[x](/\\elsewhere.example)",
  "[x](file:///etc/passwd)",
  "<javascript:alert(1)>",
  '[x](https://a.example/"onmouseover="alert(1))',
  '[x](https://a.example "t\\" onmouseover=\\"alert(1)")',
  "[x][1]\n\n[1]: javascript:alert(1)",
  "![x](https://a.example/track.png)",
  "![x](javascript:alert(1))",
  "![x][1]\n\n[1]: https://a.example/track.png",
  "```html\n<script>alert(1)</script>\n```",
  '```"><script>alert(1)</script>\nx\n```',
  "`<script>alert(1)</script>`",
  "| <script>alert(1)</script> | [x](javascript:alert(1)) |\n|:--|--:|\n| <b>x</b> | y |",
  "# <script>alert(1)</script>",
]
const tags = /^(p|h[2-4]|a|strong|em|s|ul|ol|li|blockquote|code|pre|br|hr|table|thead|tbody|tr|th|td)$/
const attributes: Record<string, RegExp> = {
  href: /^(https?:\/\/|\/(?![/\\])|#)/,
  rel: /^noreferrer$/,
  title: /^/,
  class: /^language-/,
  start: /^\d+$/,
}

test.each(hostile)("nothing in %j can run, load or lead astray", (words) => {
  for (const html of [htmlOf(words), ...wallsOf(words)]) {
    for (const element of parse(html, { comment: true }).querySelectorAll("*")) {
      expect(element.rawTagName).toMatch(tags)
      for (const [name, value] of Object.entries(element.attributes)) {
        expect(attributes, `${name} on ${element.rawTagName}`).toHaveProperty([name])
        expect(value).toMatch(attributes[name]!)
      }
    }
    expect(html).not.toMatch(/<(script|img|svg|style|iframe|!--)/i)
  }
})

test("headings, lists, emphasis and links are set, and stand below the page's own title", () => {
  expect(htmlOf("# Warm\n\n**dough** is *fast*\n\n- one\n- two\n\n[table](/bake-days/1/table)")).toBe(
    '<h2>Warm</h2>\n<p><strong>dough</strong> is <em>fast</em></p>\n<ul>\n<li>one</li>\n<li>two</li>\n</ul>\n<p><a href="/bake-days/1/table" rel="noreferrer">table</a></p>\n',
  )
})

test("the highest heading of the words stands just below the page's title, whatever its marks", () => {
  expect(htmlOf("### Warm\n\n#### Dough")).toBe("<h2>Warm</h2>\n<h3>Dough</h3>\n")
})

test("a wall holds one heading and what follows it, or as much as fits", () => {
  expect(wallsOf("Begin.\n\n# Warm\n\nfast\n\n# Cold\n\n- slow\n- slower")).toEqual([
    "<p>Begin.</p>\n",
    "<h2>Warm</h2>\n<p>fast</p>\n",
    "<h2>Cold</h2>\n<ul>\n<li>slow</li>\n<li>slower</li>\n</ul>\n",
  ])
  expect(wallsOf(Array.from({ length: 6 }, () => "word ".repeat(40)).join("\n\n"))).toHaveLength(3)
  expect(wallsOf("")).toEqual([])
})

test("the opening is the first paragraph without its marks", () => {
  expect(openingOf("# Warm\n\nThe **clock** [lies](https://a.example)\nto us.\n\nMore.")).toBe("The clock lies to us.")
  expect(openingOf("")).toBe("")
})
