/** A number that was told is said again before it counts. */
import { boundIn } from '../run/bound-in.ts'
import type { Call } from '../run/call.ts'
import type { Answer } from '../run/event.ts'
import { isPlausible } from '../run/plausible.ts'
import { callKey } from './announce.ts'
import { answerText, unitName, type Told } from './call-words.ts'
import type { Asking } from './asking.ts'
import type { SteppedAnswer } from './first-step.ts'
import type { Intent } from './intent.ts'
import { ask, tell, type Response } from './response.ts'

/** Null where no number is asked for. */
export function numberTold(
  { value, unit }: Extract<Intent, { type: 'number' }>,
  call: Call,
  told: Told
): Response | null {
  const { words } = told.manner
  const check = call.kind === 'step' ? call.place.step.check : null
  if (check?.kind === 'count') {
    if (!Number.isInteger(value) || value < 0) return tell(words.askNumberAgain)
    return readBack({ kind: 'count', value }, call, told)
  }
  if (check?.kind !== 'reading') return null
  const read = unit ?? check.unit
  if (boundIn(check, read) === null) return tell(words.needsUnit(unitName(check.unit)))
  return readBack({ kind: 'reading', value, unit: read }, call, told)
}

export function readBack(given: SteppedAnswer, call: Call, told: Told): Response {
  const text = told.manner.words.readBack(answerText(given, told.manner.words))
  return implausible(given, call, told) ?? ask({ kind: 'is-that-so', answer: given, step: callKey(call) }, text)
}

/** What cannot be was misheard or mistyped: it is asked for again, and never recorded. */
export function implausible(given: Answer, call: Call, { course, manner }: Told): Response | null {
  const check = call.kind === 'step' ? call.place.step.check : null
  if (call.kind !== 'step' || !check || check.kind !== given.kind) return null
  if (isPlausible(course.procedure, call.lane, check, given)) return null
  return tell(manner.words.implausible(answerText(given, manner.words)))
}

/** It was no: what was wrong is nearer to what is right than where the steps began. */
export function askAgain({ answer, step }: Extract<Asking, { kind: 'is-that-so' }>, { manner }: Told): Response {
  return ask({ kind: 'stepping', at: answer, step }, manner.words.askNumberAgain)
}
