/** What somebody can see, feel or taste of a dough or a bread; the full list follows. */
export type CueKey = string
