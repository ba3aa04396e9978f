export type TemperatureUnit = "C" | "F"
export type Read<T> = { value: T } | { error: string }

export function readTemperature(text: string, unit: TemperatureUnit, of: "dough" | "room" | "inside"): Read<number> {
  throw new Error(`not built yet: ${text}, ${unit}, ${of}`)
}

export function readRise(text: string, startHeight: string): Read<number> {
  throw new Error(`not built yet: ${text}, ${startHeight}`)
}

export function readPh(text: string): Read<number> {
  throw new Error(`not built yet: ${text}`)
}

export function readLength(text: string): Read<number> {
  throw new Error(`not built yet: ${text}`)
}
