import MarkdownIt from "markdown-it"

// Every piece of HTML that anybody typed comes out as the letters they typed; tests/reviews/markdown.test.ts tries.
const markdown = new MarkdownIt({ html: false, linkify: false, breaks: true }).disable("image")

/** Links lead to other pages here or on the web; nothing else is a link at all, so that no address can run anything. */
markdown.validateLink = (url) => /^(https?:\/\/|\/(?![/\\])|#)/i.test(url)

markdown.core.ruler.push("fit the page", ({ tokens }) => {
  const levels = tokens.filter(isHeading).map(levelOf)
  for (const token of tokens) {
    // columns that were set to one side would come with a style, which our content policy refuses
    token.attrs = token.attrs?.filter(([name]) => name !== "style") ?? null
    // the page has its title; the highest heading that the words use stands just below it
    if (isHeading(token)) token.tag = `h${Math.min(levelOf(token) - Math.min(...levels) + 2, 4)}`
  }
})
const isHeading = ({ type }: { type: string }) => type.startsWith("heading_")
const levelOf = ({ tag }: { tag: string }) => Number(tag.slice(1))

const plainLink = markdown.renderer.rules.link_open
markdown.renderer.rules.link_open = (tokens, index, options, env, self) => {
  tokens[index]!.attrSet("rel", "noreferrer")
  return plainLink ? plainLink(tokens, index, options, env, self) : self.renderToken(tokens, index, options)
}

/** Words as HTML: the one text of a person's that a view prints raw. */
export const htmlOf = (words: string): string => markdown.render(words)

/** The same in pieces that fit a wall each: a new one at every heading, and where a piece would grow long. */
export function wallsOf(words: string): string[] {
  const walls: { tokens: typeof tokens; length: number }[] = []
  const tokens = markdown.parse(words, {})
  for (const block of blocksOf(tokens)) {
    const length = block.reduce((sum, { content }) => sum + content.length, 0)
    const last = walls.at(-1)
    const heads = block[0]?.type === "heading_open"
    if (!last || heads || last.length + length > mostLetters)
      walls.push({ tokens: [...block], length: heads ? 0 : length })
    else {
      last.tokens.push(...block)
      last.length += length
    }
  }
  return walls.map((wall) => markdown.renderer.render(wall.tokens, markdown.options, {}))
}
// About ten lines in large type. Our own choice.
const mostLetters = 420

/** The outermost blocks, each with all that is in it. */
function blocksOf<Token extends { level: number; nesting: number }>(tokens: Token[]): Token[][] {
  const blocks: Token[][] = []
  for (const token of tokens) {
    if (token.level === 0 && token.nesting >= 0) blocks.push([token])
    else blocks.at(-1)?.push(token)
  }
  return blocks
}

/** The first paragraph of somebody's words as plain text, for where there is room for no more. */
export function openingOf(words: string): string {
  const tokens = markdown.parse(words, {})
  const first = tokens.findIndex(({ type, level }) => type === "paragraph_open" && level === 0)
  const inline = tokens[first + 1]?.children ?? []
  return inline.map(({ type, content }) => (type.endsWith("break") ? " " : content)).join("")
}
