/** Bounds as a rule set writes them: `at least 50 ppm`, `at most 8`, `12.5 to 25 ppm`, `at least 24 C / 75 F`. */
import type { Bounds } from './rule-set.ts'

const NUMBER = String.raw`\d+(?:\.\d+)?`
const DEGREES = `-?${NUMBER}`

/** The whole text, with a unit that may have a bar in it for a choice. */
const pattern = (unit: string) =>
  new RegExp(`^(?:(?:at least|at most) ${NUMBER}${unit}|${NUMBER} to ${NUMBER}${unit})$`)

export const STRENGTH_PATTERN = pattern(' (?:ppm|mg/L)')
export const HARDNESS_PATTERN = pattern(' mg/L')
export const PH_PATTERN = pattern('')
export const TIME_PATTERN = pattern(' (?:s|min|h)')

/** Both scales, or one of them. */
const scales = (figure: string) => `(?:${figure} C(?: / ${figure} F)?|${figure} F)`
export const TEMPERATURE_PATTERN = new RegExp(
  `^(?:(?:at least|at most) ${scales(DEGREES)}|${scales(`${DEGREES} to ${DEGREES}`)})$`
)

const SECONDS: Readonly<Record<string, number>> = { s: 1, min: 60, h: 3600 }

/** @throws when the text does not fit its pattern, which is checked before. */
export function plainBounds(text: string): Bounds {
  const [first, second] = numbersIn(text)
  const scale = SECONDS[/[a-z]+$/i.exec(text)?.[0] ?? ''] ?? 1
  return bounds(text, first * scale, second === undefined ? undefined : second * scale)
}

/** A single figure after the slash has the sense of the figure before it. */
export function temperatureBounds(text: string): { readonly C: Bounds | null; readonly F: Bounds | null } {
  const [one = '', other] = text.split(' / ')
  const [first, second] = numbersIn(one)
  const mine = bounds(one, first, second)
  if (one.endsWith('F')) return { C: null, F: mine }
  if (other === undefined) return { C: mine, F: null }
  const [third, fourth] = numbersIn(other)
  return { C: mine, F: bounds(one, third, fourth) }
}

function bounds(sense: string, first: number, second: number | undefined): Bounds {
  if (sense.startsWith('at least')) return { min: first, max: null }
  if (sense.startsWith('at most')) return { min: null, max: first }
  return { min: first, max: second ?? null }
}

function numbersIn(text: string): readonly [number, number | undefined] {
  const [first, second] = text.match(new RegExp(DEGREES, 'g')) ?? []
  if (first === undefined) throw new Error(`no bound: ${text}`)
  return [Number(first), second === undefined ? undefined : Number(second)]
}
