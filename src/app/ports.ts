/** Everything outside that the app works with. Put together in main.tsx, or from fakes in tests. */
import type { FewWords } from '../core/talk/few-words.ts'
import type { AccountsLink } from '../ports/accounts.ts'
import type { Alarm } from '../ports/alarm.ts'
import type { Clock } from '../ports/clock.ts'
import type { Ears } from '../ports/ears.ts'
import type { EventLog } from '../ports/event-log.ts'
import type { Locks } from '../ports/locks.ts'
import type { Mouth } from '../ports/mouth.ts'
import type { Planner } from '../ports/planner.ts'
import type { RecordsLink } from '../ports/records.ts'
import type { ScreenLock } from '../ports/screen-lock.ts'
import type { ServerLink } from '../ports/server.ts'
import type { SpeechClips } from '../ports/speech-clips.ts'
import type { ServerStream } from '../ports/server-stream.ts'
import type { VoicePractice } from '../ports/voice-practice.ts'
import type { DraftBench, WorkshopLink } from '../ports/workshop.ts'
import type { Waker } from '../ports/waker.ts'

export interface Ports {
  readonly clock: Clock
  readonly ears: Ears
  /** Comes with the ears, after the first screen. */
  readonly practice: () => Promise<VoicePractice>
  /** Comes with the ears that need it. */
  readonly fewWords: () => Promise<FewWords>
  readonly mouth: Mouth
  readonly clips: SpeechClips
  readonly alarm: Alarm
  readonly waker: Waker
  readonly planner: Planner
  readonly log: EventLog
  readonly locks: Locks
  readonly screenLock: ScreenLock
  readonly server: ServerLink
  readonly stream: ServerStream
  /** Loads what reaches the records: nobody needs it in a run. */
  readonly records: () => Promise<RecordsLink>
  /** The same for what reaches people, devices and links. */
  readonly accounts: () => Promise<AccountsLink>
  /** Loads what procedures in the making need. */
  readonly workshop: () => Promise<{ readonly link: WorkshopLink; readonly startBench: () => DraftBench }>
  /** UUIDv7. */
  readonly newId: () => string
  /** IANA zone of this device. */
  readonly zone: string
  /** BCP 47 tags that the device prefers, best first. */
  readonly languages: readonly string[]
}
