import { sql } from "drizzle-orm"
import {
  type AnyPgColumn,
  boolean,
  check,
  date,
  doublePrecision,
  index,
  integer,
  jsonb,
  pgTable,
  primaryKey,
  serial,
  text,
  timestamp,
  unique,
  uniqueIndex,
  uuid,
} from "drizzle-orm/pg-core"
import type { Composition, Ingredient, Portion } from "./dough/ingredients/ingredient.ts"
import type { Measures } from "./dough/quantity/reading.ts"
import type { Finger } from "./dough/verdict/facts.ts"
import type { FormulaContent } from "./formulas/content.ts"
import type { Kitchen } from "./kitchens/kitchen.ts"
import type { KeptCrumb } from "./measuring/kept.ts"
import type { Wishes } from "./plans/wishes.ts"
import type { EditionContent, ReviewContent } from "./reviews/content.ts"

const instant = (name: string) => timestamp(name, { withTimezone: true, mode: "date" })
const madeAt = () => instant("made_at").notNull().defaultNow()

// People

export const users = pgTable(
  "users",
  {
    id: serial("id").primaryKey(),
    signInName: text("sign_in_name").notNull(),
    passwordHash: text("password_hash").notNull(),
    isOwner: boolean("is_owner").notNull().default(false),
    temperatureUnit: text("temperature_unit", { enum: ["C", "F"] })
      .notNull()
      .default("C"),
    massUnit: text("mass_unit", { enum: ["g", "oz"] })
      .notNull()
      .default("g"),
    /** Which cups and spoons this person writes in; a formula keeps those it was written in. */
    measures: text("measures").$type<Measures>().notNull().default("us"),
    /** Whether clocks show this person 16:30 or 4:30 pm. */
    clock: text("clock", { enum: ["24", "12"] })
      .notNull()
      .default("24"),
    zone: text("zone").notNull(),
    madeAt: madeAt(),
  },
  (table) => [uniqueIndex("users_sign_in_name").on(sql`lower(${table.signInName})`)],
)

export const sessions = pgTable("sessions", {
  id: text("id").primaryKey(),
  userId: integer("user_id")
    .notNull()
    .references(() => users.id, { onDelete: "cascade" }),
  expiresAt: instant("expires_at").notNull(),
})

/** Links that work once: making the owner's account, choosing a new password. Only a hash is kept. */
export const oneTimeLinks = pgTable("one_time_links", {
  tokenHash: text("token_hash").primaryKey(),
  purpose: text("purpose", { enum: ["setup", "password"] }).notNull(),
  userId: integer("user_id").references(() => users.id, { onDelete: "cascade" }),
  expiresAt: instant("expires_at").notNull(),
})

export const allergenLists = ["us", "eu", "both"] as const
export type AllergenList = (typeof allergenLists)[number]

export const classes = pgTable("classes", {
  id: serial("id").primaryKey(),
  name: text("name").notNull(),
  place: text("place").notNull(),
  zone: text("zone").notNull(),
  /** Whose list of allergens counts where the class meets: the nine of the US, the fourteen of the EU and the UK, or both. */
  allergenList: text("allergen_list", { enum: allergenLists }).notNull().default("both"),
  madeAt: madeAt(),
})

export const roles = ["instructor", "assistant", "student"] as const
export type Role = (typeof roles)[number]

/** Allergens as dough/ingredients/allergen-lists.ts names them, and what no list has, in the person's own words. */
export type Allergies = { keys: string[]; words: string }

export const memberships = pgTable(
  "memberships",
  {
    classId: integer("class_id")
      .notNull()
      .references(() => classes.id, { onDelete: "cascade" }),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id, { onDelete: "cascade" }),
    role: text("role", { enum: roles }).notNull(),
    shownName: text("shown_name").notNull(),
    /** What this person must not eat; seen by them and by the class's instructors only. */
    allergies: jsonb("allergies").$type<Allergies>().notNull().default({ keys: [], words: "" }),
    joinedAt: instant("joined_at").notNull().defaultNow(),
  },
  (table) => [
    primaryKey({ columns: [table.classId, table.userId] }),
    uniqueIndex("memberships_shown_name").on(table.classId, sql`lower(${table.shownName})`),
    index("memberships_user").on(table.userId),
  ],
)

export const invitations = pgTable("invitations", {
  id: serial("id").primaryKey(),
  classId: integer("class_id")
    .notNull()
    .references(() => classes.id, { onDelete: "cascade" }),
  role: text("role", { enum: roles }).notNull(),
  // kept readable, unlike the one-time links: the instructor shows it again and again, and can revoke it
  token: text("token").notNull().unique(),
  madeAt: madeAt(),
  revokedAt: instant("revoked_at"),
})

export const ingredientKinds = [
  "flour",
  "liquid",
  "fat",
  "sugar",
  "salt",
  "yeast",
  "starter",
  "powder",
  "egg",
  "inclusion",
] as const

/** Ingredients that a class adds to the catalogue. */
export const classIngredients = pgTable(
  "class_ingredients",
  {
    id: serial("id").primaryKey(),
    classId: integer("class_id")
      .notNull()
      .references(() => classes.id, { onDelete: "cascade" }),
    name: text("name").notNull(),
    kind: text("kind", { enum: ingredientKinds }).notNull(),
    per100g: jsonb("per_100g").$type<Composition>().notNull(),
    portions: jsonb("portions").$type<Portion[]>().notNull(),
    /** Of the nine of the US, and of the fourteen of the EU and the UK. */
    usAllergens: text("us_allergens").array().notNull(),
    euAllergens: text("eu_allergens").array().notNull(),
    remark: text("remark").notNull(),
    madeAt: madeAt(),
  },
  (table) => [uniqueIndex("class_ingredients_name").on(table.classId, sql`lower(${table.name})`)],
)

// Formulas

export const formulas = pgTable("formulas", {
  id: serial("id").primaryKey(),
  ownerId: integer("owner_id")
    .notNull()
    .references(() => users.id),
  title: text("title").notNull(),
  draft: jsonb("draft").$type<FormulaContent>().notNull(),
  // set: anyone with the link reads the newest revision
  publicToken: text("public_token").unique(),
  madeAt: madeAt(),
  changedAt: instant("changed_at").notNull().defaultNow(),
})

export const revisions = pgTable(
  "revisions",
  {
    id: serial("id").primaryKey(),
    formulaId: integer("formula_id")
      .notNull()
      .references(() => formulas.id),
    number: integer("number").notNull(),
    title: text("title").notNull(),
    content: jsonb("content").$type<FormulaContent>().notNull(),
    /** The writer's own ingredients as they stood when it was published, so that its figures never change. */
    ownIngredients: jsonb("own_ingredients").$type<Ingredient[]>().notNull().default([]),
    whatChanged: text("what_changed").notNull(),
    publishedAt: instant("published_at").notNull().defaultNow(),
  },
  (table) => [unique("revisions_number").on(table.formulaId, table.number)],
)

// Bake days

export const bakeDays = pgTable(
  "bake_days",
  {
    id: serial("id").primaryKey(),
    classId: integer("class_id")
      .notNull()
      .references(() => classes.id, { onDelete: "cascade" }),
    revisionId: integer("revision_id")
      .notNull()
      .references(() => revisions.id),
    title: text("title").notNull(),
    opensOn: date("opens_on").notNull(),
    closesOn: date("closes_on").notNull(),
    /** Wall time in the class's zone, "18:30". */
    onTableTime: text("on_table_time").notNull(),
    lookFor: text("look_for").notNull(),
    targetDoughC: doublePrecision("target_dough_c"),
    /** Share gained before shaping: 0.5 is +50 %. */
    targetRise: doublePrecision("target_rise"),
    madeAt: madeAt(),
  },
  (table) => [
    index("bake_days_class").on(table.classId),
    check("bake_days_window", sql`${table.opensOn} <= ${table.closesOn}`),
  ],
)

export const plans = pgTable(
  "plans",
  {
    bakeDayId: integer("bake_day_id")
      .notNull()
      .references(() => bakeDays.id, { onDelete: "cascade" }),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id, { onDelete: "cascade" }),
    onTableAt: instant("on_table_at").notNull(),
    /** Key of the formula's variant that this person bakes; "" bakes it as written. */
    variant: text("variant").notNull().default(""),
    /** What this person's own day is to be like: places, a cold proof, a feeding, when not to. */
    wishes: jsonb("wishes").$type<Wishes>().notNull().default({}),
    /** Grows whenever the day that a calendar was given has moved; `digest` tells that it has (RFC 5545, section 3.8.7.4). */
    sequence: integer("sequence").notNull().default(0),
    digest: text("digest").notNull().default(""),
    movedAt: instant("moved_at").notNull().defaultNow(),
  },
  (table) => [primaryKey({ columns: [table.bakeDayId, table.userId] })],
)

/** A person's kitchen, asked once; what is not in it is unknown. */
export const kitchens = pgTable("kitchens", {
  userId: integer("user_id")
    .primaryKey()
    .references(() => users.id, { onDelete: "cascade" }),
  content: jsonb("content").$type<Kitchen>().notNull(),
  changedAt: instant("changed_at").notNull().defaultNow(),
})

/** The private address of one person's calendar; readable, since that person copies it into every device. */
export const calendarFeeds = pgTable(
  "calendar_feeds",
  {
    id: serial("id").primaryKey(),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id, { onDelete: "cascade" }),
    token: text("token").notNull().unique(),
    madeAt: madeAt(),
    revokedAt: instant("revoked_at"),
  },
  (table) => [index("calendar_feeds_user").on(table.userId)],
)

/** Who brings what of a shopping list to a class. */
export const bringings = pgTable(
  "bringings",
  {
    id: serial("id").primaryKey(),
    bakeDayId: integer("bake_day_id")
      .notNull()
      .references(() => bakeDays.id, { onDelete: "cascade" }),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id, { onDelete: "cascade" }),
    /** As the shopping list calls it. */
    thing: text("thing").notNull(),
    /** How much of it, in that person's words; "" all of it. */
    amount: text("amount").notNull().default(""),
    madeAt: madeAt(),
  },
  (table) => [uniqueIndex("bringings_thing").on(table.bakeDayId, table.thing, table.userId)],
)

// Bakes

export const vessels = ["", "tin", "hearth", "pot"] as const
export type Vessel = (typeof vessels)[number]

export const bakes = pgTable(
  "bakes",
  {
    id: serial("id").primaryKey(),
    bakeDayId: integer("bake_day_id")
      .notNull()
      .references(() => bakeDays.id),
    /** The revision this bake used, whatever the bake day is given later. */
    revisionId: integer("revision_id")
      .notNull()
      .references(() => revisions.id),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id),
    onTableAt: instant("on_table_at").notNull(),
    variant: text("variant").notNull().default(""),
    /** Where and with what, in the student's words: "cellar kitchen, stoneground flour". */
    kitchen: text("kitchen").notNull().default(""),
    shared: boolean("shared").notNull().default(true),
    insideC: doublePrecision("inside_c"),
    doughMassG: doublePrecision("dough_mass_g"),
    bakedMassG: doublePrecision("baked_mass_g"),
    heightMm: doublePrecision("height_mm"),
    /** The pieces as they were weighed, in the order typed. */
    pieceMassesG: doublePrecision("piece_masses_g").array().notNull().default([]),
    /** Exactly what was typed, with its unit: "92, 88, 95 90 g". */
    pieceMassesTyped: text("piece_masses_typed").notNull().default(""),
    ownWords: text("own_words").notNull().default(""),
    /** Baked in a tin or free on a hearth or in a pot; "" not said. */
    vessel: text("vessel", { enum: vessels }).notNull().default(""),
    /** What was seen of dough and bread: keys of dough/verdict/cues.ts. */
    cues: text("cues").array().notNull().default([]),
    /** Grows with everything that is logged, and says to an open page whether it is still up to date. */
    version: integer("version").notNull().default(0),
    madeAt: madeAt(),
    finishedAt: instant("finished_at"),
    abandonedAt: instant("abandoned_at"),
  },
  (table) => [index("bakes_bake_day").on(table.bakeDayId), index("bakes_user").on(table.userId)],
)

/**
 * Everything a form of the bench brought, under the number the form made itself: what arrives twice is kept once.
 * `digest` tells a form that is sent again from one that was changed meanwhile.
 */
export const entries = pgTable(
  "entries",
  {
    id: uuid("id").primaryKey(),
    bakeId: integer("bake_id")
      .notNull()
      .references(() => bakes.id, { onDelete: "cascade" }),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id),
    digest: text("digest").notNull(),
    keptAt: instant("kept_at").notNull().defaultNow(),
  },
  (table) => [index("entries_bake").on(table.bakeId)],
)

/** Time off within a stage: bulk, an hour in the fridge, bulk again. `to` null: not gone on with yet. ISO instants. */
export type Pause = { from: string; to: string | null }

export const marks = pgTable(
  "marks",
  {
    bakeId: integer("bake_id")
      .notNull()
      .references(() => bakes.id, { onDelete: "cascade" }),
    stageKey: text("stage_key").notNull(),
    startedAt: instant("started_at").notNull(),
    endedAt: instant("ended_at"),
    pauses: jsonb("pauses").$type<Pause[]>().notNull().default([]),
    /** How the times were given: "" tapped or exact, else the words, such as "about 40 minutes ago". */
    startedTyped: text("started_typed").notNull().default(""),
    endedTyped: text("ended_typed").notNull().default(""),
    /** How far off each may be either way, in minutes; null for an exact time. */
    startedAboutMin: doublePrecision("started_about_min"),
    endedAboutMin: doublePrecision("ended_about_min"),
    /** Who said each; null where the time was kept before this was. */
    startedBy: integer("started_by").references(() => users.id),
    endedBy: integer("ended_by").references(() => users.id),
  },
  (table) => [
    primaryKey({ columns: [table.bakeId, table.stageKey] }),
    check("marks_order", sql`${table.endedAt} is null or ${table.endedAt} >= ${table.startedAt}`),
  ],
)

export const readingKinds = [
  "dough",
  "room",
  "rise",
  "finger",
  "ph",
  "fridge",
  "oven",
  "water",
  "levain",
  "note",
] as const
export type ReadingKind = (typeof readingKinds)[number]
export const waysOfKnowing = ["measured", "assumed", "felt"] as const
export type Known = (typeof waysOfKnowing)[number]

export const readings = pgTable(
  "readings",
  {
    id: serial("id").primaryKey(),
    bakeId: integer("bake_id")
      .notNull()
      .references(() => bakes.id, { onDelete: "cascade" }),
    /** Made by the form, so that a request sent twice is kept once. */
    entryId: uuid("entry_id").notNull().unique(),
    kind: text("kind", { enum: readingKinds }).notNull(),
    takenAt: instant("taken_at").notNull(),
    /** How the time was given: "" for at once or an exact time, else the words. */
    takenTyped: text("taken_typed").notNull().default(""),
    /** How far off the time may be either way, in minutes; null for an exact one. */
    takenAboutMin: doublePrecision("taken_about_min"),
    known: text("known", { enum: waysOfKnowing }).notNull().default("measured"),
    /** What of, where the kind leaves it open: a rise of the "jar", the "bowl" or the "levain", a pH of the "dough" or the "levain". */
    of: text("of").notNull().default(""),
    stageKey: text("stage_key"),
    /** dough, room, fridge, oven, water, levain: °C; rise: share gained; ph: pH; finger, note: null. */
    value: doublePrecision("value"),
    finger: text("finger").$type<Finger>(),
    /** Exactly what was typed: "75 °F", "50 → 78 mm", or the note itself. */
    typed: text("typed").notNull(),
    madeAt: madeAt(),
    /** Taken back: still there to be seen in the log, and counted nowhere. */
    removedAt: instant("removed_at"),
  },
  (table) => [index("readings_bake").on(table.bakeId)],
)

/** What a reading, a stage's times or a change said before somebody corrected it; the newest stand in their own tables. */
export const corrections = pgTable(
  "corrections",
  {
    id: serial("id").primaryKey(),
    bakeId: integer("bake_id")
      .notNull()
      .references(() => bakes.id, { onDelete: "cascade" }),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id),
    /** One of the three; none of them where it was said what was seen (bakes.vessel, bakes.cues). */
    readingId: integer("reading_id").references(() => readings.id, { onDelete: "cascade" }),
    stageKey: text("stage_key"),
    changeId: integer("change_id").references((): AnyPgColumn => changes.id, { onDelete: "cascade" }),
    /** The columns as they stood, instants as ISO text; null when the mark had not been there. */
    was: jsonb("was").$type<Record<string, unknown>>(),
    madeAt: madeAt(),
  },
  (table) => [index("corrections_bake").on(table.bakeId)],
)

export const changeKinds = ["left-out", "swapped", "added", "skipped", "oven", "other"] as const
export type ChangeKind = (typeof changeKinds)[number]

/** What one baker did otherwise than the formula says; the formula stays as it is. */
export const changes = pgTable(
  "changes",
  {
    id: serial("id").primaryKey(),
    bakeId: integer("bake_id")
      .notNull()
      .references(() => bakes.id, { onDelete: "cascade" }),
    kind: text("kind", { enum: changeKinds }).notNull(),
    /** The part of the formula and the ingredient of its line, "" for the whole part; or the part that got more. */
    partKey: text("part_key").notNull().default(""),
    ingredient: text("ingredient").notNull().default(""),
    /** How much of it was left out or swapped, as typed, and the grams that were read from it; "" all of it. */
    outQuantity: text("out_quantity").notNull().default(""),
    outG: doublePrecision("out_g"),
    /** What came instead or in addition, its amount as typed, and the grams; "" as much as it took the place of. */
    instead: text("instead").notNull().default(""),
    quantity: text("quantity").notNull().default(""),
    massG: doublePrecision("mass_g"),
    /** When something was added, and how that was told, as in readings. */
    doneAt: instant("done_at"),
    doneTyped: text("done_typed").notNull().default(""),
    doneAboutMin: doublePrecision("done_about_min"),
    stageKey: text("stage_key"),
    words: text("words").notNull().default(""),
    madeAt: madeAt(),
    removedAt: instant("removed_at"),
  },
  (table) => [index("changes_bake").on(table.bakeId)],
)

export const photoSubjects = ["starter", "dough", "shaped", "crust", "crumb", "other"] as const
/** How a stage looks when it is done, and when it was left too short or too long. */
export const looks = ["ready", "too-early", "too-far"] as const
export type Look = (typeof looks)[number]

/** A place in a photo, in shares of its width and height. */
export type PointInPhoto = { x: number; y: number }
export type Ruler = { from: PointInPhoto; to: PointInPhoto; mm: number; typed: string }

export const photos = pgTable(
  "photos",
  {
    /** Also the name of its files. */
    id: uuid("id").primaryKey().defaultRandom(),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id),
    bakeId: integer("bake_id").references(() => bakes.id, { onDelete: "cascade" }),
    /** A picture of how a stage looks when it is done, made by the instructor. */
    formulaId: integer("formula_id").references(() => formulas.id, { onDelete: "cascade" }),
    /** Which look of its stage a formula's picture shows. */
    look: text("look", { enum: looks }).notNull().default("ready"),
    /** The student's photo that this picture of a stage was copied from; it goes when that one goes. */
    copiedFrom: uuid("copied_from").references((): AnyPgColumn => photos.id, { onDelete: "cascade" }),
    subject: text("subject", { enum: photoSubjects }).notNull(),
    stageKey: text("stage_key"),
    takenAt: instant("taken_at").notNull(),
    /** Where the time comes from: the moment it was sent, the person, or the camera, if the person allowed it. */
    takenBy: text("taken_by", { enum: ["sending", "person", "camera"] })
      .notNull()
      .default("sending"),
    forClass: boolean("for_class").notNull(),
    /** How many mm of bread the picture's whole width shows, so that pictures can be shown at one scale; null not known. */
    acrossMm: doublePrecision("across_mm"),
    /** Corners of the crumb that is measured, inside the crust, in shares of width and height; null: as suggested. */
    crumbArea: jsonb("crumb_area").$type<PointInPhoto[]>(),
    /** Two points of the picture and how far they are apart: where `acrossMm` comes from, if it was said this way. */
    ruler: jsonb("ruler").$type<Ruler>(),
    width: integer("width").notNull(),
    height: integer("height").notNull(),
    madeAt: madeAt(),
  },
  (table) => [
    index("photos_bake").on(table.bakeId),
    index("photos_copied_from").on(table.copiedFrom),
    check("photos_of_one_thing", sql`(${table.bakeId} is null) <> (${table.formulaId} is null)`),
  ],
)

/** What a crumb photo measured, or why nothing could be measured on it: one a photo. */
export const measurements = pgTable("measurements", {
  photoId: uuid("photo_id")
    .primaryKey()
    .references(() => photos.id, { onDelete: "cascade" }),
  /** Tells the area, the scale and the method that were asked for from those of an earlier measurement. */
  asked: text("asked").notNull(),
  state: text("state", { enum: ["waiting", "running", "measured", "cannot"] }).notNull(),
  result: jsonb("result").$type<KeptCrumb>(),
  askedAt: instant("asked_at").notNull().defaultNow(),
  doneAt: instant("done_at"),
})

/** Cells that somebody counted by eye in a small frame of a photo, in shares of its width and height. */
export const handCounts = pgTable(
  "hand_counts",
  {
    id: serial("id").primaryKey(),
    photoId: uuid("photo_id")
      .notNull()
      .references(() => photos.id, { onDelete: "cascade" }),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id),
    frame: jsonb("frame").$type<{ x: number; y: number; width: number; height: number }>().notNull(),
    count: integer("count").notNull(),
    madeAt: madeAt(),
    removedAt: instant("removed_at"),
  },
  (table) => [index("hand_counts_photo").on(table.photoId)],
)

/** An instructor's wish to show a student's photo as a picture of a stage; only that student's yes makes the copy. */
export const photoWishes = pgTable(
  "photo_wishes",
  {
    id: serial("id").primaryKey(),
    photoId: uuid("photo_id")
      .notNull()
      .references(() => photos.id, { onDelete: "cascade" }),
    formulaId: integer("formula_id")
      .notNull()
      .references(() => formulas.id, { onDelete: "cascade" }),
    stageKey: text("stage_key").notNull(),
    look: text("look", { enum: looks }).notNull(),
    askedBy: integer("asked_by")
      .notNull()
      .references(() => users.id),
    askedAt: instant("asked_at").notNull().defaultNow(),
    answer: text("answer", { enum: ["yes", "no"] }),
    answeredAt: instant("answered_at"),
  },
  (table) => [unique("photo_wishes_once").on(table.photoId, table.formulaId, table.stageKey)],
)

/** What is said under a bake, or under one of its photos or readings. */
export const comments = pgTable(
  "comments",
  {
    id: serial("id").primaryKey(),
    bakeId: integer("bake_id")
      .notNull()
      .references(() => bakes.id, { onDelete: "cascade" }),
    /** At most one of the two; neither: under the bake itself. */
    photoId: uuid("photo_id").references(() => photos.id, { onDelete: "cascade" }),
    readingId: integer("reading_id").references(() => readings.id, { onDelete: "cascade" }),
    /** The stage it speaks of. */
    stageKey: text("stage_key"),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id),
    words: text("words").notNull(),
    /** A question waits until somebody of the staff has said something under the same thing after it. */
    asks: boolean("asks").notNull().default(false),
    madeAt: madeAt(),
    removedAt: instant("removed_at"),
  },
  (table) => [index("comments_bake").on(table.bakeId)],
)

// What the class makes of it

export const judges = ["baker", "instructor"] as const

/** What a baker, or an instructor, says of a bake. The newest of each stands; those before it stay as they were. */
export const judgements = pgTable(
  "judgements",
  {
    id: serial("id").primaryKey(),
    bakeId: integer("bake_id")
      .notNull()
      .references(() => bakes.id, { onDelete: "cascade" }),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id),
    by: text("by", { enum: judges }).notNull(),
    call: text("call", { enum: ["under", "well", "over", "unsure"] }).notNull(),
    /** What else explains the bread: a key of dough/verdict/explanations.ts; "" nothing else. */
    explanation: text("explanation").notNull().default(""),
    words: text("words").notNull().default(""),
    /** What the model said at that moment; null when it had not enough to say. */
    model: jsonb("model").$type<{ under: number; well: number; over: number; suspect: string } | null>(),
    madeAt: madeAt(),
    removedAt: instant("removed_at"),
  },
  (table) => [index("judgements_bake").on(table.bakeId)],
)

/** What the class concluded of a bake day, as the instructor is writing it; what the class reads are its editions. */
export const reviews = pgTable("reviews", {
  id: serial("id").primaryKey(),
  bakeDayId: integer("bake_day_id")
    .notNull()
    .unique()
    .references(() => bakeDays.id, { onDelete: "cascade" }),
  draft: jsonb("draft").$type<ReviewContent>().notNull(),
  madeAt: madeAt(),
  changedAt: instant("changed_at").notNull().defaultNow(),
})

/** A review as it was published, whole and for ever: a correction is a new edition. */
export const editions = pgTable(
  "editions",
  {
    id: serial("id").primaryKey(),
    reviewId: integer("review_id")
      .notNull()
      .references(() => reviews.id, { onDelete: "cascade" }),
    number: integer("number").notNull(),
    /** With the figures, plots and verdicts of that moment in it. */
    content: jsonb("content").$type<EditionContent>().notNull(),
    whatChanged: text("what_changed").notNull().default(""),
    publishedBy: integer("published_by")
      .notNull()
      .references(() => users.id),
    publishedAt: instant("published_at").notNull().defaultNow(),
  },
  (table) => [unique("editions_number").on(table.reviewId, table.number)],
)

export const reviewComments = pgTable(
  "review_comments",
  {
    id: serial("id").primaryKey(),
    reviewId: integer("review_id")
      .notNull()
      .references(() => reviews.id, { onDelete: "cascade" }),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id),
    words: text("words").notNull(),
    madeAt: madeAt(),
    removedAt: instant("removed_at"),
  },
  (table) => [index("review_comments_review").on(table.reviewId)],
)

/** A note on somebody's page that their bake of a bake day is missing or not finished. */
export const reminders = pgTable(
  "reminders",
  {
    id: serial("id").primaryKey(),
    bakeDayId: integer("bake_day_id")
      .notNull()
      .references(() => bakeDays.id, { onDelete: "cascade" }),
    userId: integer("user_id")
      .notNull()
      .references(() => users.id, { onDelete: "cascade" }),
    sentBy: integer("sent_by")
      .notNull()
      .references(() => users.id),
    words: text("words").notNull().default(""),
    madeAt: madeAt(),
    /** Put away by the one it is for. */
    seenAt: instant("seen_at"),
  },
  (table) => [index("reminders_user").on(table.userId), index("reminders_bake_day").on(table.bakeDayId)],
)
