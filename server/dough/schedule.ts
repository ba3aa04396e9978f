export const stageKinds = ["mix", "rest", "bulk", "fold", "divide", "shape", "proof", "retard", "bake", "cool"] as const
export type StageKind = (typeof stageKinds)[number]

export type Stage = {
  key: string
  kind: StageKind
  name: string
  lowMin: number
  highMin: number
  referenceC?: number
  drivenByTemperature: boolean
  handsOnMin: number
  cue: string
  tip: string
}

export type PlannedStage = {
  stage: Stage
  startsAt: Date
  endsAt: Date
  earliestStart: Date
  latestStart: Date
  earliestEnd: Date
  latestEnd: Date
}

export function countBack(stages: Stage[], onTableAt: Date): PlannedStage[] {
  throw new Error(`not built yet: ${stages.length}, ${onTableAt}`)
}

export function fermentingStages(stages: Stage[]): Stage[] {
  throw new Error(`not built yet: ${stages.length}`)
}

export function plannedReferenceHours(stages: Stage[]): number | undefined {
  throw new Error(`not built yet: ${stages.length}`)
}
