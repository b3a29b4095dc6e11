/** What the screens see of the page's life. */
import type { ReadableAtom, WritableAtom } from 'nanostores'
import type { Course } from '../core/procedure/course.ts'
import type { WornPart } from '../core/record/wear.ts'
import type { Manner } from '../core/talk/call-words.ts'
import type { Talk } from '../core/talk/languages.ts'
import type { AlarmState } from '../ports/alarm.ts'
import type { EarsName, EarsState } from '../ports/ears.ts'
import type { Locks } from '../ports/locks.ts'
import type { MouthState } from '../ports/mouth.ts'
import type { ScreenLockState } from '../ports/screen-lock.ts'
import type { ClipsState } from '../ports/speech-clips.ts'
import type { OpenRun } from './open-runs.ts'
import type { LinkState } from './outbox.ts'
import type { PeopleDesk } from './people-desk.ts'
import type { RecordsDesk } from './records-desk.ts'
import type { Settings } from './settings.ts'
import type { Speaker } from './speaker.ts'
import type { ClockNotice } from './time-keeper.ts'
import type { Failure, View } from './view.ts'
import type { WholePlan } from './whole-plan.ts'

export interface App {
  readonly $view: ReadableAtom<View>
  readonly $failure: WritableAtom<Failure | null>
  readonly $settings: WritableAtom<Settings>
  readonly $ears: ReadableAtom<EarsState>
  readonly $mouth: ReadableAtom<MouthState>
  /** Rendered speech for the procedure chosen or run. */
  readonly $clips: ReadableAtom<ClipsState>
  readonly $alarm: ReadableAtom<AlarmState>
  readonly $screenLock: ReadableAtom<ScreenLockState>
  readonly $link: ReadableAtom<LinkState>
  readonly $clock: ReadableAtom<ClockNotice | null>
  /** Another tab of this browser has the voice; this one shows and takes touches only. */
  readonly $voiceElsewhere: ReadableAtom<boolean>
  /** Whether another tab would be noticed at all. */
  readonly $lockReach: ReadableAtom<Locks['reach']>
  /** Whose ears listen: the browser's recogniser or our own. */
  readonly whoseEars: () => EarsName
  readonly speaker: Speaker
  readonly manner: () => Manner
  /** All that is said and heard, in the language of whoever works here. */
  readonly $talk: ReadableAtom<Talk>
  /** Figures and short forms written out for the voice. */
  readonly speakable: (text: string) => string
  /** Trusted time, epoch ms. */
  readonly now: () => number
  /** Lists procedures and open runs again. */
  list(): Promise<void>
  choose(hash: string): Promise<void>
  /** The plan of all of a procedure, for one pair of hands. */
  wholePlan(course: Course): Promise<WholePlan>
  /** Parts that should be replaced before or in the next run of a procedure. */
  wornParts(course: Course): Promise<readonly WornPart[]>
  showSums(): Promise<void>
  /** Practice of the phrases that our own ears listen for. */
  showPractice(): Promise<void>
  /** The one desk of this page. */
  records(): Promise<RecordsDesk>
  showRecords(): Promise<void>
  /** Whoever is here, and whoever may come in; the one desk of this page. */
  people(): Promise<PeopleDesk>
  showPeople(): Promise<void>
  /** Opens the records with the token of a link for reading. */
  readWith(token: string): Promise<void>
  /** Where procedures are improved. */
  showWorkshop(): Promise<void>
  backToChoice(): Promise<void>
  /** Call from inside a tap: it unlocks sound. */
  begin(): Promise<void>
  resume(run: OpenRun): Promise<void>
  /** Goes on with the damaged run that is shown, without what is lost. Only ever after a deliberate hold. */
  goOnWithout(): Promise<void>
  /** Call from inside a tap, after a reload. */
  unlock(): void
  /** The page came back, or the network did: look at the time, the run and what is unsent. */
  wake(): void
  /** Ends everything that goes on by itself. */
  close(): void
}
