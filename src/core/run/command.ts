/** What an operator can ask of a run. Questions that change nothing (repeat, why, how long) belong to core/talk. */
import type { LaneId } from '../procedure/procedure.ts'
import type { Answer, GivenName } from './event.ts'

export type Command =
  | { readonly type: 'done' }
  | { readonly type: 'next' }
  | { readonly type: 'understood' }
  /** The whole phrase a dangerous step asks for, or the held key or long press that stands for it. */
  | { readonly type: 'confirm'; readonly how: 'phrase' | 'held' }
  | { readonly type: 'answer'; readonly answer: Answer }
  | { readonly type: 'acknowledge-wait'; readonly lane: LaneId }
  | { readonly type: 'take-back' }
  | { readonly type: 'pause' }
  | { readonly type: 'resume' }
  | { readonly type: 'choose-lane'; readonly lane: LaneId }
  /** Time has passed: send the hands where they are needed now, if that is elsewhere. */
  | { readonly type: 'call-hands' }
  /** Another pair of hands, at this device. */
  | { readonly type: 'join'; readonly name: string; readonly who?: GivenName }
  /** That pair of hands (named by its device) is no longer there. */
  | { readonly type: 'leave'; readonly hands: string }
  | { readonly type: 'hand-over'; readonly to: string; readonly who?: GivenName }
  | { readonly type: 'report-problem'; readonly lane: LaneId; readonly text: string }
  | { readonly type: 'replace-part'; readonly lane: LaneId; readonly part: string }
  /** `action` says what was done about it. */
  | { readonly type: 'correct'; readonly lane: LaneId; readonly action: string }
  | { readonly type: 'abandon'; readonly reason: string }
