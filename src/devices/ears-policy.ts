/** What to do after a recogniser session is over. Pure: the browser object is in ears-web-speech.ts. */
import type { DeafReason } from '../ports/ears.ts'

export type SessionEnd =
  | { readonly kind: 'ended' }
  | { readonly kind: 'error'; readonly code: string; readonly afterMs: number; readonly online: boolean }
  /** A watchdog saw nothing from the engine for too long. */
  | { readonly kind: 'no-answer' }
  /** `start()` or the constructor threw; `name` is the exception's. */
  | { readonly kind: 'start-threw'; readonly name: string }

export interface EarsHealth {
  /** Failures in a row that were answered by waiting. */
  readonly backoffs: number
  readonly networkFailures: number
  readonly noAnswers: number
  /** Steady time since which no failure came, once listening. */
  readonly healthySince: number | null
  /** Steady times of the sessions that ended by themselves within the last minute. */
  readonly ends: readonly number[]
}

export type Next =
  | { readonly kind: 'rest'; readonly ms: number; readonly reason: DeafReason | null }
  | { readonly kind: 'deaf'; readonly reason: DeafReason }
  | { readonly kind: 'other-language' }

/** Below this a restart can collide with the engine still letting go. */
export const ORDINARY_REST_MS = 300
/** An engine that is there needs longer than this to find that its network is not. */
const NO_ENGINE_MS = 100
const NETWORK_FAILURES = 3
const NO_ANSWERS = 2
const FIRST_BACKOFF_MS = 1000
const LONGEST_BACKOFF_MS = 60_000
const HEALTHY_MS = 60_000
const ENDS_A_MINUTE = 20
const MINUTE_MS = 60_000

export const FRESH: EarsHealth = { backoffs: 0, networkFailures: 0, noAnswers: 0, healthySince: null, ends: [] }

export function listening(health: EarsHealth, now: number): EarsHealth {
  return health.healthySince === null ? { ...health, healthySince: now } : health
}

/** Sound shows that the microphone works; only words, or the finding that there were none, come from the engine behind it. */
export function signOfLife(health: EarsHealth, of: 'microphone' | 'engine'): EarsHealth {
  return of === 'engine' ? { ...health, networkFailures: 0, noAnswers: 0 } : { ...health, noAnswers: 0 }
}

/** `chance` is 0 to 1. Backoff doubles from 1 s to 60 s, plus up to a quarter, so that tablets do not retry in step. */
export function afterSession(
  before: EarsHealth,
  end: SessionEnd,
  now: number,
  chance: number
): { readonly health: EarsHealth; readonly next: Next } {
  const health =
    before.healthySince !== null && now - before.healthySince >= HEALTHY_MS ? { ...before, backoffs: 0 } : before

  const backOff = (reason: DeafReason, from: EarsHealth = health) => {
    const ms = Math.min(LONGEST_BACKOFF_MS, FIRST_BACKOFF_MS * 2 ** Math.min(from.backoffs, 10))
    return {
      health: { ...from, backoffs: from.backoffs + 1, healthySince: null },
      next: { kind: 'rest', ms: ms * (1 + chance / 4), reason } as const
    }
  }
  const deaf = (reason: DeafReason) => ({ health, next: { kind: 'deaf', reason } as const })
  const ordinary = () => {
    const ends = [...health.ends.filter((at) => now - at < MINUTE_MS), now]
    if (ends.length > ENDS_A_MINUTE) return backOff('not-answering', { ...health, ends })
    return { health: { ...health, ends }, next: { kind: 'rest', ms: ORDINARY_REST_MS, reason: null } as const }
  }

  switch (end.kind) {
    case 'ended':
      return ordinary()
    case 'no-answer': {
      const noAnswers = health.noAnswers + 1
      return noAnswers >= NO_ANSWERS ? deaf('not-answering') : backOff('not-answering', { ...health, noAnswers })
    }
    case 'start-threw':
      return end.name === 'NotAllowedError' ? deaf('denied') : backOff('not-answering')
    case 'error':
      switch (end.code) {
        case 'no-speech':
        case 'aborted':
          return ordinary()
        case 'not-allowed':
        case 'service-not-allowed':
          return deaf('denied')
        case 'language-not-supported':
          return { health, next: { kind: 'other-language' } }
        case 'audio-capture':
          return backOff('no-microphone')
        case 'network': {
          // Without a network the engine is not to blame, however often and quickly it fails.
          if (!end.online) return backOff('no-engine')
          const networkFailures = health.networkFailures + 1
          if (end.afterMs < NO_ENGINE_MS || networkFailures >= NETWORK_FAILURES) return deaf('no-engine')
          return backOff('no-engine', { ...health, networkFailures })
        }
        default:
          return backOff('not-answering')
      }
  }
}
