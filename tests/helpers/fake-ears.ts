import type { Speaker } from '../../src/core/ears/listener.ts'
import { listeners } from '../../src/devices/listeners.ts'
import { toldState } from '../../src/devices/told-state.ts'
import type { Clock } from '../../src/ports/clock.ts'
import type { DeafReason, Ears, EarsName, EarsState, Heard } from '../../src/ports/ears.ts'

export interface FakeEars extends Ears {
  /** The operator says this and is heard. Throws when the ears do not listen. */
  say(words: string, confidence?: number): void
  /** The engine offers these instead of what was said, best first. Throws when the ears do not listen. */
  mishear(...alternatives: readonly string[]): void
  /** Begins an utterance; the returned function ends it. It is heard only if the ears listened all the time. */
  beginSaying(words: string): () => 'heard' | 'dropped'
  /** Almost one of these was said. Throws when the ears do not listen. */
  almost(...closest: readonly string[]): void
  /** The engine has a guess that it is not certain of. */
  guess(words: string): void
  /** The operator speaks although nobody can hear. Throws when the ears do listen. */
  sayUnheard(words: string): void
  goDeaf(reason: DeafReason): void
  retryUntil(untilSteady: number, reason: DeafReason): void
  /** Other ears take over, as when the browser's have proved to have nothing behind them. */
  become(which: EarsName): void
  /** What was wrong is over: listens again, as far as it is wanted. */
  recover(): void
  readonly language: string | null
  /** What the app says may be said now. */
  readonly expected: readonly string[] | null
  /** Whose words may be said. */
  readonly expectedOf: Speaker
  /** The attention words, where one must come first. */
  readonly attention: readonly string[] | null
  /** How often the operator asked the ears to try again. */
  readonly triedAgain: number
}

/** Ears that listen at once when started, unless told of a trouble. */
export function fakeEars(clock: Clock): FakeEars {
  const heardBy = listeners<Heard>()
  const missedBy = listeners<readonly string[]>()
  const state = toldState<EarsState>({ kind: 'off' })
  let language: string | null = null
  let gated = false
  let trouble: EarsState | null = null
  let triedAgain = 0
  let name: EarsName = 'browser'
  let expected: readonly string[] | null = null
  let expectedOf: Speaker = 'anybody'
  let attention: readonly string[] | null = null
  // Counts every end of listening, so that an utterance knows whether it was cut.
  let cuts = 0

  const settle = () => {
    const before = state.now().kind
    const next: EarsState =
      language === null ? { kind: 'off' } : (trouble ?? (gated ? { kind: 'gated' } : { kind: 'listening' }))
    if (before === 'listening' && next.kind !== 'listening') cuts++
    state.set(next)
  }
  const listening = () => state.now().kind === 'listening'
  const hear = (alternatives: Heard['alternatives'], startedSteady: number, unsure = false) => {
    if (!listening()) throw new Error(`Nobody hears "${alternatives[0]?.words}": the ears are ${state.now().kind}.`)
    heardBy.tell(unsure ? { alternatives, startedSteady, unsure } : { alternatives, startedSteady })
  }

  return {
    start(wanted) {
      language = wanted
      settle()
    },
    stop() {
      language = null
      settle()
    },
    tryAgain() {
      triedAgain++
      trouble = null
      settle()
    },
    gate() {
      gated = true
      settle()
    },
    open() {
      gated = false
      settle()
    },
    expect(words, speaker = 'anybody') {
      expected = words
      expectedOf = speaker
    },
    attend(phrases) {
      attention = phrases
    },
    which: () => name,
    state: state.now,
    onHeard: heardBy.add,
    onMissed: missedBy.add,
    onState: state.onChange,

    say: (words, confidence = 0.9) => hear([{ words, confidence }], clock.steady()),
    mishear: (...alternatives) =>
      hear(
        alternatives.map((words, place) => ({ words, confidence: 0.6 / (place + 1) })),
        clock.steady()
      ),
    almost(...closest) {
      if (!listening()) throw new Error(`Nobody hears anything: the ears are ${state.now().kind}.`)
      missedBy.tell(closest)
    },
    guess: (words) => hear([{ words, confidence: 0.4 }], clock.steady(), true),
    beginSaying(words) {
      const startedSteady = clock.steady()
      const cutsBefore = cuts
      const began = listening()
      return () => {
        if (!began || cuts !== cutsBefore) return 'dropped'
        hear([{ words, confidence: 0.9 }], startedSteady)
        return 'heard'
      }
    },
    sayUnheard(words) {
      if (listening()) throw new Error(`"${words}" is heard: the ears listen.`)
    },
    goDeaf(reason) {
      trouble = { kind: 'deaf', reason }
      settle()
    },
    retryUntil(untilSteady, reason) {
      trouble = { kind: 'retrying', reason, untilSteady }
      settle()
    },
    become(which) {
      name = which
      state.set({ kind: 'starting' })
      settle()
    },
    recover() {
      trouble = null
      settle()
    },
    get language() {
      return language
    },
    get expected() {
      return expected
    },
    get expectedOf() {
      return expectedOf
    },
    get attention() {
      return attention
    },
    get triedAgain() {
      return triedAgain
    }
  }
}
