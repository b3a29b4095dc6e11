/** What requests about accounts hold, and what they are refused with. */
import type { Context } from 'hono'
import * as v from 'valibot'
import { problem } from '../problem.ts'

/** Half of a surrogate pair has no UTF-8 form; control characters have no place in what stands on one line. */
const line = (longest: number) =>
  v.pipe(v.string(), v.trim(), v.minLength(1), v.maxLength(longest), v.regex(/^[^\p{Surrogate}\p{Cc}]*$/u))

export const personName = line(60)
export const deviceName = line(60)
export const note = line(120)
export const machineName = line(200)
export const code = v.pipe(v.string(), v.maxLength(40))
/** Longer ones are refused in words further on. */
export const secret = v.pipe(v.string(), v.maxLength(1000), v.regex(/^\P{Surrogate}*$/u))

export function faulty(context: Context, detail: string): Response {
  return problem(context, 422, 'This cannot be used', detail)
}

export function slowDown(context: Context, waitMs: number): Response {
  const seconds = Math.ceil(waitMs / 1000)
  context.header('retry-after', String(seconds))
  const wait = seconds < 120 ? `${seconds} seconds` : `${Math.ceil(seconds / 60)} minutes`
  return problem(context, 429, 'Too many tries', `Wait ${wait}, then try again.`)
}

export function tooBusy(context: Context): Response {
  return problem(context, 503, 'Too many at once', 'Try again in a moment.')
}
