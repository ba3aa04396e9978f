import { Readable } from "node:stream"
import { changeIn } from "../changes/words.ts"
import { findClass } from "../classes/queries.ts"
import type { CrumbFigures } from "../crumbs/captions.ts"
import { cues, isCue } from "../dough/verdict/cues.ts"
import type { FormulaContent } from "../formulas/content.ts"
import type { Asked } from "./asked.ts"
import { stateOf, type Told, toldBakes } from "./bakes.ts"
import { percentOf, rounded } from "./csv.ts"
import { photoNames } from "./file-names.ts"
import { listRevisions, type Reading, readingsOf } from "./queries.ts"
import { quantities, valuesOf } from "./readings.ts"

/** A bake day as one JSON document that keeps to schema.ts, written bake by bake as somebody reads it. */
export function documentOf(asked: Asked, schemaUrl: string) {
  return Readable.from(partsOf(asked, schemaUrl), { objectMode: false })
}

async function* partsOf(asked: Asked, schemaUrl: string) {
  const head = JSON.stringify({ $schema: schemaUrl, ...(await headOf(asked)) })
  yield `${head.slice(0, -1)},"bakes":[`
  let between = "\n"
  for await (const some of toldBakes(asked)) {
    const readings = await readingsOf(
      asked.db,
      some.map(({ bake }) => bake.id),
    )
    for (const told of some) {
      yield between + JSON.stringify(bakeIn(told, readings.get(told.bake.id) ?? [], asked))
      between = ",\n"
    }
  }
  yield "\n]}\n"
}

async function headOf({ db, bakeDay, bakes, seesAll, now, at }: Asked) {
  const group = await findClass(db, bakeDay.classId)
  const revisionIds = [...new Set([bakeDay.revisionId, ...bakes.map(({ revisionId }) => revisionId)])]
  return {
    exportedAt: at(now),
    shows: seesAll ? "every bake" : "own and shared bakes",
    bakeDay: {
      id: bakeDay.id,
      title: bakeDay.title,
      class: bakeDay.className,
      place: group?.place ?? "",
      zone: bakeDay.zone,
      opensOn: bakeDay.opensOn,
      closesOn: bakeDay.closesOn,
      onTableTime: bakeDay.onTableTime,
      lookFor: bakeDay.lookFor,
      formula: bakeDay.formulaTitle,
      revision: bakeDay.revisionNumber,
      targetDoughTemperatureC: rounded(bakeDay.targetDoughC),
      targetRisePercent: percentOf(bakeDay.targetRise),
    },
    revisions: (await listRevisions(db, revisionIds)).map(({ number, title, content }) => ({
      ...{ number, title },
      ...formulaIn(content),
    })),
  }
}

const formulaIn = ({ about, parts, stages }: FormulaContent) => ({
  about,
  parts: parts.map(({ key, name, goesInto, lines }) => ({
    ...{ key, name, goesInto: goesInto || null },
    lines: lines.map(({ quantity, ingredient, note }) => ({ quantity, ingredient, note })),
  })),
  stages: stages.map((stage) => ({
    key: stage.key,
    kind: stage.kind,
    name: stage.name,
    lowMin: stage.lowMin,
    highMin: stage.highMin,
    referenceTemperatureC: rounded(stage.referenceC),
    drivenByTemperature: stage.drivenByTemperature,
    until: stage.cue,
  })),
})

function bakeIn({ bake, row, judged }: Told, readings: Reading[], { bakeDay, say, at }: Asked) {
  const names = photoNames(bake.photos, { slug: bake.slug, nth: bake.nth, zone: bakeDay.zone })
  return {
    id: bake.id,
    baker: bake.name,
    number: bake.nth,
    shared: bake.shared,
    state: stateOf(bake),
    revision: bake.revisionNumber,
    made: bake.way,
    kitchen: bake.kitchen,
    bakedIn: bake.vessel || null,
    wantedOnTableAt: at(bake.onTableAt),
    finishedAt: at(bake.finishedAt),
    givenUpAt: at(bake.abandonedAt),
    changes: bake.changes.map((change) => changeIn(change, say)),
    stages: stagesIn(bake, row, at),
    readings: readings.map((reading) => ({
      takenAt: at(reading.takenAt),
      takenWithinMin: rounded(reading.takenAboutMin, 1),
      stage: reading.stageKey,
      reading: quantities[reading.kind],
      of: reading.of || null,
      known: reading.known,
      ...valuesOf(reading),
      asTyped: reading.typed,
    })),
    fermentation: fermentationIn(row),
    verdict: verdictIn(row),
    causes: causesIn(row),
    judged,
    seen: bake.cues.filter(isCue).map((key) => ({ key, words: cues[key].label })),
    result: {
      insideTemperatureC: rounded(bake.insideC, 1),
      doughMassG: rounded(bake.doughMassG, 1),
      bakedMassG: rounded(bake.bakedMassG, 1),
      heightMm: rounded(bake.heightMm, 1),
      pieceMassesG: bake.pieceMassesG.map((g) => rounded(g, 1)),
      ownWords: bake.ownWords,
    },
    photos: bake.photos.map((photo) => ({
      file: names.get(photo.id)!,
      subject: photo.subject,
      stage: photo.stageKey,
      takenAt: at(photo.takenAt),
      forClass: photo.forClass,
      acrossMm: rounded(photo.acrossMm, 1),
      measuredCrumb: crumbIn(bake.crumbs.find(({ photoId }) => photoId === photo.id)),
    })),
  }
}

const crumbIn = (crumb: CrumbFigures | undefined) =>
  crumb
    ? {
        visibleCellAreaPercent: percentOf(crumb.share),
        lowPercent: percentOf(crumb.shareRange[0]),
        highPercent: percentOf(crumb.shareRange[1]),
        cellsPerCm2: rounded(crumb.perCm2, 1),
        meanCellMm2: rounded(crumb.meanMm2, 2),
        largestCellMm2: rounded(crumb.largestMm2, 1),
        cautions: crumb.cautions,
      }
    : null

const stagesIn = (bake: Told["bake"], row: Told["row"], at: Asked["at"]) =>
  row.planned.map(({ stage, startsAt, endsAt }) => {
    const mark = bake.marks.find(({ stageKey }) => stageKey === stage.key)
    return {
      key: stage.key,
      name: stage.name,
      skipped: bake.skipped.includes(stage.key),
      plannedToBeginAt: at(startsAt),
      plannedToEndAt: at(endsAt),
      beganAt: at(mark?.startedAt),
      beganWithinMin: rounded(mark?.startedAboutMin, 1),
      endedAt: at(mark?.endedAt),
      endedWithinMin: rounded(mark?.endedAboutMin, 1),
      pauses: (mark?.pauses ?? []).map(({ from, to }) => ({ from: at(new Date(from)), to: to && at(new Date(to)) })),
    }
  })

const fermentationIn = ({ plannedHours, fermented, warmth, rise, targetRise, finger }: Told["row"]) => ({
  plannedReferenceH: rounded(plannedHours),
  referenceH: rounded(fermented?.hours),
  assumedPercent: percentOf(fermented?.assumedShare),
  meanTemperatureC: rounded(warmth?.meanC),
  meanTemperatureOf: warmth?.meanC === undefined ? null : warmth.from,
  risePercent: percentOf(rise?.share),
  targetRisePercent: percentOf(targetRise),
  fingerTest: finger ?? null,
})

function verdictIn({ verdict }: Told["row"]) {
  const reasons = verdict.suspects.map(({ key, name, chance }) => ({ key, name, percent: percentOf(chance) }))
  if (verdict.call === "not enough to say") return { call: verdict.call, wouldHelp: verdict.wouldHelp, reasons }
  const { call, under, well, over } = verdict
  const chances = { underPercent: percentOf(under), wellPercent: percentOf(well), overPercent: percentOf(over) }
  return { call, ...chances, reasons }
}

function causesIn({ causes }: Told["row"]) {
  if (!causes.enough) return { enough: false, why: causes.why }
  return {
    enough: true,
    leadMin: rounded(causes.leadMin, 1),
    shares: causes.shares.map(({ key, min, lowMin, highMin }) => ({
      ...{ cause: key, min: rounded(min, 1), lowMin: rounded(lowMin, 1), highMin: rounded(highMin, 1) },
    })),
  }
}
