/** When to say again what nobody has answered: later first, sooner and more plainly each time, and not for ever. */
import type { Call } from '../run/call.ts'
import { callWords, type Told } from './call-words.ts'
import type { Line } from './line.ts'

/** A person who thinks is not to be hurried: common practice, no source. */
const PATIENCE_MS = 90_000
const GROWING_MS: readonly number[] = [0, 60_000, 45_000]

/**
 * Null when it needs no reminder (or has had them all); otherwise how long after the last sign of the operator, ms, the next
 * one is due. `given` is how many there were since then.
 */
export function reminderAfter(call: Call, given: number): number | null {
  if (given >= GROWING_MS.length) return null
  const since = GROWING_MS.slice(0, given + 1).reduce((sum, ms) => sum + ms, 0)
  switch (call.kind) {
    case 'step':
      // Twice the stated time is still somebody at work.
      return PATIENCE_MS + 2000 * call.place.step.handsSeconds + since
    case 'caution':
    case 'stopped':
    case 'late':
      return PATIENCE_MS + since
    case 'alarm':
    // It rings by itself.
    case 'paused':
    case 'all-waiting':
    case 'stand-by':
    case 'not-started':
    case 'finished':
    case 'abandoned':
      return null
  }
}

/** Once more; then that it is open; then where to find us. Each as urgent as what it reminds of, or more. */
export function reminderLines(told: Told, call: Call, given: number): readonly Line[] {
  const { words } = told.manner
  const { lines } = callWords(told, call, false)
  const answer = (text: string): Line => ({ priority: 'answer', text, lane: null })
  if (given === 0) return lines
  const again = lines.map(({ text }) => answer(text))
  return [answer(given === 1 ? words.stillOpen : words.lastReminder), ...again]
}
