import type { Speaker } from '../core/ears/listener.ts'
import type { Clock } from '../ports/clock.ts'
import type { DeafReason, EarsName, EarsState, Heard, PlainEars } from '../ports/ears.ts'
import type { Locks } from '../ports/locks.ts'
import { afterSession, FRESH, listening, ORDINARY_REST_MS, signOfLife, type SessionEnd } from './ears-policy.ts'
import { earsSession, type Session } from './ears-session.ts'
import { listeners } from './listeners.ts'
import type { PermissionWatch } from './microphone-permission.ts'
import type { PageVisibility } from './page-visibility.ts'
import type { ListeningManner, Recogniser } from './recogniser.ts'
import { toldState } from './told-state.ts'

export interface EarsParts {
  readonly name: EarsName
  /** Told what may be said now, where the recogniser wants to know. */
  readonly expect?: (words: readonly string[] | null, speaker: Speaker) => void
  /** Null when the browser has no recogniser. */
  readonly makeRecogniser: (() => Recogniser) | null
  readonly manner: ListeningManner
  readonly clock: Clock
  /** 0 to 1. */
  readonly chance: () => number
  readonly visibility: PageVisibility
  readonly permission: PermissionWatch
  readonly locks: Locks
  readonly online: () => boolean
  /** Tells of the browser's `online` and `devicechange` events. */
  readonly onWake: (tell: (why: 'online' | 'devicechange') => void) => void
  /** What this device remembers of a recogniser that has nothing behind it. */
  readonly engineMemory: { recallAbsent(): boolean; rememberAbsent(absent: boolean): void }
}

const START_PATIENCE_MS = 2500
/** While the browser asks the operator for the microphone, `start` does not come until there is an answer. */
const PERMISSION_PATIENCE_MS = 20_000
const LOCK_PATIENCE_MS = 1000
const SAME_WORDS_MS = 1000

type Ownership = 'none' | 'asking' | 'other-tab' | 'ours'

/**
 * Every cause calls `settle`, which compares what is wanted with what is alive and makes one move. A session that was
 * told to close is never listened to again, so nothing that began before `open` can be heard after it.
 */
export function webSpeechEars(parts: EarsParts): PlainEars {
  const { clock } = parts
  const heardBy = listeners<Heard>()
  const missedBy = listeners<readonly string[]>()

  let wanted: string | null = null
  let gated = false
  let deaf: DeafReason | null = null
  let health = FRESH
  let session: Session | null = null
  let rest: { readonly untilSteady: number; readonly reason: DeafReason | null } = { untilSteady: 0, reason: null }
  let cancelRest = () => {}
  let tags: readonly string[] = []
  let owner: Ownership = 'none'
  let giveUpLock = () => {}
  let lastHeard = { words: '', steady: Number.NEGATIVE_INFINITY }

  const resting = () => clock.steady() < rest.untilSteady
  const mayListen = () => wanted !== null && !gated && deaf === null && owner === 'ours' && parts.visibility.visible()

  const describe = (): EarsState => {
    if (!parts.makeRecogniser) return { kind: 'deaf', reason: 'unsupported' }
    if (wanted === null || !parts.visibility.visible()) return { kind: 'off' }
    if (deaf) return { kind: 'deaf', reason: deaf }
    if (owner === 'other-tab') return { kind: 'deaf', reason: 'other-tab' }
    if (gated) return { kind: 'gated' }
    if (session?.phase() === 'running') return { kind: 'listening' }
    if (resting() && rest.reason) return { kind: 'retrying', reason: rest.reason, untilSteady: rest.untilSteady }
    return { kind: 'starting' }
  }
  const state = toldState<EarsState>(describe())

  const settle = () => {
    cancelRest()
    if (session && !mayListen()) session.close()
    if (mayListen() && resting()) {
      cancelRest = clock.after(rest.untilSteady - clock.steady(), settle)
    } else if (mayListen() && !session) {
      state.set(describe())
      begin()
    }
    // Another tab may have the microphone only when nothing of ours is left at it.
    if (wanted === null && !session) {
      giveUpLock()
      giveUpLock = () => {}
      owner = 'none'
    }
    state.set(describe())
  }

  const begin = () => {
    const { makeRecogniser } = parts
    const [language] = tags
    if (!makeRecogniser || language === undefined) return
    const startPatienceMs = parts.permission.now() === 'prompt' ? PERMISSION_PATIENCE_MS : START_PATIENCE_MS
    const ours = earsSession(
      { makeRecogniser, manner: parts.manner, language, clock, online: parts.online, startPatienceMs },
      {
        started() {
          health = listening(health, clock.steady())
          settle()
        },
        signOfLife(of) {
          health = signOfLife(health, of)
        },
        heard: deliver,
        missed: missedBy.tell,
        ended,
        gone() {
          session = null
          settle()
        }
      }
    )
    session = ours
    ours.start()
  }

  const ended = (end: SessionEnd) => {
    const now = clock.steady()
    // Safari forbids a hidden page the microphone, which is no denial by the operator.
    const how: SessionEnd = parts.visibility.visible() ? end : { kind: 'ended' }
    const after = afterSession(health, how, now, parts.chance())
    health = after.health
    const { next } = after
    if (next.kind === 'deaf') {
      deaf = next.reason
      if (deaf === 'no-engine') parts.engineMemory.rememberAbsent(true)
    } else if (next.kind === 'other-language') {
      tags = tags.slice(1)
      if (tags.length === 0) deaf = 'language-missing'
      rest = { untilSteady: now + ORDINARY_REST_MS, reason: null }
    } else {
      rest = { untilSteady: now + next.ms, reason: next.reason }
      if (next.reason === null && parts.manner === 'press-to-talk') wanted = null
    }
    settle()
  }

  const deliver = (heard: Heard) => {
    const now = clock.steady()
    const words = heard.alternatives[0]?.words.toLowerCase() ?? ''
    // Engines tell the same utterance twice, also in a session started right after.
    if (words === lastHeard.words && now - lastHeard.steady < SAME_WORDS_MS) return
    lastHeard = { words, steady: now }
    heardBy.tell(heard)
  }

  const ownMicrophone = () => {
    if (owner !== 'none') return
    owner = 'asking'
    let given = false
    let release = () => {}
    const cancelPatience = clock.after(LOCK_PATIENCE_MS, () => {
      owner = 'other-tab'
      settle()
    })
    giveUpLock = () => {
      given = true
      cancelPatience()
      release()
    }
    release = parts.locks.hold('microphone', () => {
      if (given) return
      cancelPatience()
      owner = 'ours'
      settle()
    })
    if (given) release()
  }

  const tryAgain = () => {
    if (deaf === 'no-engine') parts.engineMemory.rememberAbsent(false)
    deaf = null
    health = FRESH
    rest = { untilSteady: 0, reason: null }
    if (wanted !== null) tags = languageTags(wanted)
    settle()
  }

  parts.visibility.onMoment((moment) => {
    // Coming back to the front often gives a silent engine its audio back.
    if (moment === 'visible' && deaf === 'not-answering') tryAgain()
    else settle()
  })
  parts.permission.onChange((permission) => {
    if (permission === 'granted' && deaf === 'denied') tryAgain()
  })
  parts.onWake((why) => {
    const cause: DeafReason = why === 'online' ? 'no-engine' : 'no-microphone'
    if (!resting() || rest.reason !== cause) return
    rest = { untilSteady: Math.min(rest.untilSteady, clock.steady() + ORDINARY_REST_MS), reason: cause }
    settle()
  })

  return {
    start(language) {
      if (!parts.makeRecogniser || wanted === language) return
      wanted = language
      tags = languageTags(language)
      if (deaf === 'language-missing') deaf = null
      if (deaf === null && parts.engineMemory.recallAbsent()) deaf = 'no-engine'
      // A session of another language ends here, and its end starts the right one.
      session?.close()
      ownMicrophone()
      settle()
    },
    stop() {
      wanted = null
      settle()
    },
    tryAgain,
    gate() {
      gated = true
      settle()
    },
    open() {
      gated = false
      settle()
    },
    expect: (words, speaker = 'anybody') => parts.expect?.(words, speaker),
    which: () => parts.name,
    state: state.now,
    onHeard: heardBy.add,
    onMissed: missedBy.add,
    onState: state.onChange
  }
}

/** `es-MX`, then `es`: an engine without the region may still have the language. */
function languageTags(language: string): readonly string[] {
  const [base = language] = language.split('-')
  return base === language ? [language] : [language, base]
}
