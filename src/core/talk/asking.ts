import type { LaneId } from '../procedure/procedure.ts'
import type { WearPlace } from '../procedure/wear-places.ts'
import type { Call } from '../run/call.ts'
import { callKey } from './announce.ts'
import type { SteppedAnswer } from './first-step.ts'
import type { Intent } from './intent.ts'

/** A question Sidecall asked and has no answer to yet. `step`: the key of the call that it is about. */
export type Asking =
  | { readonly kind: 'is-that-so'; readonly answer: SteppedAnswer; readonly step: string }
  /** A number that grows and shrinks in steps until it is right. */
  | { readonly kind: 'stepping'; readonly at: SteppedAnswer; readonly step: string }
  | { readonly kind: 'take-back' }
  /** Words that were heard too badly to act on. */
  | { readonly kind: 'did-you-say'; readonly intent: Intent }
  /** The first step after coming back to a lane: mistakes gather there (Altmann, Trafton, Hambrick 2014). */
  | { readonly kind: 'is-done'; readonly step: string }
  | { readonly kind: 'which'; readonly between: readonly Intent[] }
  | { readonly kind: 'which-part'; readonly places: readonly WearPlace[] }
  | { readonly kind: 'which-correction'; readonly lane: LaneId; readonly actions: readonly string[] }

/** Questions that take yes or no. */
export function takesYesNo(asking: Asking | null): boolean {
  return asking !== null && ['is-that-so', 'take-back', 'is-done', 'did-you-say'].includes(asking.kind)
}

/** A question about a step is no longer open once the hands are elsewhere: its "yes" would count for another side. */
export function openQuestion(asking: Asking | null, call: Call): Asking | null {
  return asking && 'step' in asking && asking.step !== callKey(call) ? null : asking
}
