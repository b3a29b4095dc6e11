/** The number that is being typed for a reading or a count. */
import type { Check, ReadingUnit } from '../core/procedure/procedure.ts'
import { otherScale } from '../core/run/bound-in.ts'
import type { Answer } from '../core/run/event.ts'

const NUMBER_KEYS = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '-', 'erase'] as const
export type NumberKey = (typeof NUMBER_KEYS)[number]

/** Long enough for every scale in use, such as 10.25 pH or 2000 ppm. */
const LONGEST = 6

export type NumberCheck = Extract<Check, { kind: 'reading' | 'count' }>

export function isNumberKey(key: string): key is NumberKey {
  return (NUMBER_KEYS as readonly string[]).includes(key)
}

/** The keys that make sense for what is asked: only temperatures go below zero, and nobody counts half a part. */
export function keysFor(check: NumberCheck): { readonly point: boolean; readonly minus: boolean } {
  return { point: check.kind === 'reading', minus: check.kind === 'reading' && check.reading === 'temperature' }
}

/** Between the scales of a temperature; what has no other scale stays as it is. */
export function otherUnit(check: NumberCheck, unit: ReadingUnit | null): ReadingUnit | null {
  return check.kind === 'reading' && unit === null ? otherScale(check.unit) : null
}

/** A key that does not fit leaves what was typed as it is. */
export function typeKey(typed: string, key: NumberKey, check: NumberCheck): string {
  const allowed = keysFor(check)
  if (key === 'erase') return typed.slice(0, -1)
  if (key === '-') return !allowed.minus ? typed : typed.startsWith('-') ? typed.slice(1) : `-${typed}`
  if (typed.replace('-', '').length >= LONGEST) return typed
  if (key === '.') return !allowed.point || typed.includes('.') ? typed : `${/\d$/.test(typed) ? typed : `${typed}0`}.`
  return /^-?0$/.test(typed) ? `${typed.slice(0, -1)}${key}` : `${typed}${key}`
}

/** Null while what was typed is no number yet. `unit`: another than the one asked for. */
export function answerOf(typed: string, check: NumberCheck, unit: ReadingUnit | null = null): Answer | null {
  if (!/\d$/.test(typed)) return null
  const value = Number(typed)
  return check.kind === 'count' ? { kind: 'count', value } : { kind: 'reading', value, unit: unit ?? check.unit }
}
