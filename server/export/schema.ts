import { stageKinds } from "../dough/schedule.ts"
import { photoSubjects, vessels, waysOfKnowing } from "../schema.ts"
import { quantities } from "./readings.ts"

export const schemaPath = "/schemas/bake-day-1.json"

type Property = Record<string, unknown>
/**
 * An object of which every property is there and no other; a property that may be unknown is null. What came to the document
 * `later` is not in those kept before, which must still hold.
 */
const object = (
  description: string,
  properties: Record<string, Property>,
  later: Record<string, Property> = {},
): Property => ({
  type: "object",
  description,
  properties: { ...properties, ...later },
  required: Object.keys(properties),
  additionalProperties: false,
})
const list = (description: string, items: Property): Property => ({ type: "array", description, items })
const text = (description: string): Property => ({ type: "string", description })
const count = (description: string): Property => ({ type: "integer", minimum: 1, description })
const number = (description: string, unit: string): Property => ({
  type: "number",
  description: `${description} Unit: ${unit}.`,
})
const flag = (description: string): Property => ({ type: "boolean", description })
const oneOf = (description: string, values: readonly string[]): Property => ({ enum: values, description })
const instant = (description: string): Property => ({ type: "string", format: "date-time", description })
const day = (description: string): Property => ({ type: "string", format: "date", description })
const orNull = ({ type, enum: values, ...rest }: Property): Property =>
  values ? { enum: [...(values as string[]), null], ...rest } : { type: [type, "null"], ...rest }

const about = "How far off that time may be either way; null for an exact one."
const stageKey = "The key of a stage of the revision."

const revision = object("A published, frozen formula, in the words of whoever wrote it.", {
  number: count("Which revision of its formula."),
  title: text("Its title."),
  about: text("What its writer says of it."),
  parts: list(
    "Mixes made on their own: levain, soaker, final dough.",
    object("One part.", {
      key: text("Its key in this revision."),
      name: text("Its name."),
      goesInto: orNull(text("The key of the part it is used in; null for a final dough.")),
      lines: list(
        "Its ingredients, amounts exactly as written.",
        object("One line.", {
          quantity: text("The amount as written, with its own unit."),
          ingredient: text("What of."),
          note: text("What the writer adds."),
        }),
      ),
    }),
  ),
  stages: list(
    "What is done, in order.",
    object("One stage.", {
      key: text("Its key in this revision."),
      kind: oneOf("What kind of stage.", stageKinds),
      name: text("Its name."),
      lowMin: number("The shortest it takes.", "minutes"),
      highMin: number("The longest it takes.", "minutes"),
      referenceTemperatureC: orNull(number("The dough temperature these times are meant for.", "°C")),
      drivenByTemperature: flag("Whether a warmer dough takes less time."),
      until: text("The cue that ends it."),
    }),
  ),
})

const stage = object("A stage of one bake, planned and done.", {
  key: text(stageKey),
  name: text("Its name."),
  skipped: flag("The baker left it out."),
  plannedToBeginAt: instant("By this baker's own plan, at the middle of every range."),
  plannedToEndAt: instant("The same."),
  beganAt: orNull(instant("When it began.")),
  beganWithinMin: orNull(number(about, "minutes")),
  endedAt: orNull(instant("When it ended.")),
  endedWithinMin: orNull(number(about, "minutes")),
  pauses: list(
    "Time off within the stage.",
    object("One pause.", { from: instant("Its beginning."), to: orNull(instant("Its end; null while it lasts.")) }),
  ),
})

const reading = object("One value at one moment; exactly one of the values is set, none for one that was only typed.", {
  takenAt: instant("When it was taken."),
  takenWithinMin: orNull(number(about, "minutes")),
  stage: orNull(text(stageKey)),
  reading: oneOf("What was read.", Object.values(quantities)),
  of: orNull(text("What of, where that is open: jar, bowl, dough, levain.")),
  known: oneOf("How it is known.", waysOfKnowing),
  temperatureC: orNull(number("A temperature.", "°C")),
  risePercent: orNull(number("Volume gained over the start: 50 is from 100 to 150 ml.", "%")),
  ph: orNull(number("Acidity.", "pH")),
  fingerTest: orNull(oneOf("What a dent does.", ["straight-back", "slowly-partly", "stays"])),
  note: orNull(text("A note's own words.")),
  asTyped: text("Exactly what was typed, in whatever unit."),
})

const fermentation = object("What the log says against the plan.", {
  plannedReferenceH: orNull(number("Fermentation the plan asks for, to the oven.", "reference hours, hours at 24 °C")),
  referenceH: orNull(
    number("Fermentation from the first stage that temperature drives to the oven.", "reference hours"),
  ),
  assumedPercent: orNull(number("How much of that time the temperature is assumed for.", "%")),
  meanTemperatureC: orNull(number("Mean over that time.", "°C")),
  meanTemperatureOf: orNull(oneOf("Whose: the room stands in where nobody measured the dough.", ["dough", "room"])),
  risePercent: orNull(number("The last rise before shaping.", "%")),
  targetRisePercent: orNull(number("The rise to aim for.", "%")),
  fingerTest: orNull(oneOf("The last finger test.", ["straight-back", "slowly-partly", "stays"])),
})

const percent = (call: string) => number(`How likely it was ${call}proofed.`, "%")
const reasons = list(
  "What may explain the bread, most likely first; the chances overlap.",
  object("One explanation.", {
    key: text("Its key."),
    name: text("In words."),
    percent: number("How likely it is.", "%"),
  }),
)
const verdict: Property = {
  description: "What the model makes of it, a probability each, or that there is not enough to say.",
  oneOf: [
    object("A verdict.", {
      call: oneOf("The likeliest, or between two.", ["under", "well", "over", "between"]),
      underPercent: percent("under"),
      wellPercent: percent("well "),
      overPercent: percent("over"),
      reasons,
    }),
    object("No verdict.", {
      call: { const: "not enough to say", description: "There is not enough to say." },
      wouldHelp: text("What would have helped most."),
      reasons,
    }),
  ],
}

const causes: Property = {
  description: "What of the lead over the plan each cause carries: Shapley values, which add up to it.",
  oneOf: [
    object("Shares.", {
      enough: { const: true, description: "There is enough to say." },
      leadMin: number("How much further on than planned the dough was at the oven; below 0 less far.", "minutes"),
      shares: list(
        "The largest first.",
        object("One share.", {
          cause: oneOf("Of what.", ["time", "temperature", "leaven", "activity"]),
          min: number("Above 0 where it brought the dough on.", "minutes"),
          lowMin: number("The low end of its 80 % range.", "minutes"),
          highMin: number("The high end of its 80 % range.", "minutes"),
        }),
      ),
    }),
    object("No shares.", {
      enough: { const: false, description: "There is not enough to say." },
      why: text("Why not."),
    }),
  ],
}

const measuredCrumb = object("What was measured on a crumb; null where nothing was, or where it could not be.", {
  visibleCellAreaPercent: number("How much of the marked crumb is cell that the photo can show.", "%"),
  lowPercent: number("The same with the limit between cell and wall a little darker.", "%"),
  highPercent: number("The same with the limit a little lighter.", "%"),
  cellsPerCm2: orNull(number("How many cells; this and the sizes only with a scale.", "cells per cm²")),
  meanCellMm2: orNull(number("The mean cell.", "mm²")),
  largestCellMm2: orNull(number("The largest whole cell.", "mm²")),
  cautions: list("What to bear in mind about these numbers.", text("One caution.")),
})

const judgedCalls = ["under", "well", "over", "unsure"]
const bake = object("What one person actually did.", {
  id: count("Its number in the addresses of this service."),
  baker: text("The name the class sees."),
  number: count("Which of this baker's bakes that are shown here."),
  shared: flag("Whether classmates see it."),
  state: oneOf("How it stands.", ["open", "finished", "given up"]),
  revision: count("The revision it used."),
  made: text("The formula's variant, by name; empty as written."),
  kitchen: text("Where, in the baker's words."),
  bakedIn: orNull(oneOf("Baked in or on what.", vessels.filter(Boolean))),
  wantedOnTableAt: instant("When this baker wanted it on the table."),
  finishedAt: orNull(instant("When it was finished.")),
  givenUpAt: orNull(instant("When it was given up.")),
  changes: list("What was done otherwise than the formula says, in words; masses in g.", text("One change.")),
  stages: list("In the order of the plan.", stage),
  readings: list("In the order of time.", reading),
  fermentation,
  verdict,
  causes,
  judged: object("What people say of it, beside the model.", {
    baker: orNull(oneOf("Its baker.", judgedCalls)),
    instructor: orNull(oneOf("The instructors.", judgedCalls)),
  }),
  seen: list(
    "What the baker ticked of dough and bread.",
    object("One thing seen.", { key: text("Its key."), words: text("In words.") }),
  ),
  result: object("What came out.", {
    insideTemperatureC: orNull(number("Inside, as it left the oven.", "°C")),
    doughMassG: orNull(number("What went into the oven.", "g")),
    bakedMassG: orNull(number("The same, once cool.", "g")),
    heightMm: orNull(number("Height of the loaf.", "mm")),
    pieceMassesG: list("The pieces as weighed.", number("One piece.", "g")),
    ownWords: text("The baker's words."),
  }),
  photos: list(
    "Those that whoever exported it may see.",
    object(
      "One photo.",
      {
        file: text("Its name in photos.zip."),
        subject: oneOf("What it shows.", photoSubjects),
        stage: orNull(text(stageKey)),
        takenAt: instant("When it was taken."),
        forClass: flag("Whether classmates see it."),
        acrossMm: orNull(number("How much the picture's whole width shows.", "mm")),
      },
      { measuredCrumb: orNull(measuredCrumb) },
    ),
  ),
})

/**
 * The JSON Schema (2020-12) of an exported bake day. Another shape gets another number in its path, so that what was kept
 * stays readable by what it names.
 */
export const schemaAt = (url: string): Property => ({
  $schema: "https://json-schema.org/draft/2020-12/schema",
  $id: url,
  title: "A bake day of Common Oven",
  ...object(
    "One formula baked by a class, with everything that was logged. Temperatures in °C, masses in g, lengths in mm, times in minutes; instants by the class's clock with their distance from UTC. What is not known is null.",
    {
      $schema: { type: "string", format: "uri", description: "Where this schema is." },
      exportedAt: instant("When this was written."),
      shows: oneOf("Whose bakes are in it.", ["every bake", "own and shared bakes"]),
      bakeDay: object("One formula and a window of days, given to a class.", {
        id: count("Its number in the addresses of this service."),
        title: text("Its name."),
        class: text("The class."),
        place: text("Where the class meets."),
        zone: text("The class's time zone, as IANA names it."),
        opensOn: day("The first day."),
        closesOn: day("The last day."),
        onTableTime: { type: "string", pattern: "^\\d\\d:\\d\\d$", description: "Suggested wall time to eat." },
        lookFor: text("What the class was to look for."),
        formula: text("The formula's title."),
        revision: count("The revision the class was given."),
        targetDoughTemperatureC: orNull(number("The dough temperature to aim for.", "°C")),
        targetRisePercent: orNull(number("The rise before shaping to aim for.", "%")),
      }),
      revisions: list("Every revision that was used.", revision),
      bakes: list("By name, then in the order they were begun.", bake),
    },
  ),
})
