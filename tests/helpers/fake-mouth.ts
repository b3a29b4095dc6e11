import { toldState } from '../../src/devices/told-state.ts'
import type { Clock } from '../../src/ports/clock.ts'
import type { Mouth, MouthState, MuteReason, Spoken } from '../../src/ports/mouth.ts'

export interface Said {
  readonly text: string
  readonly language: string
  /** Null while it is being said. */
  readonly outcome: Spoken | null
}

export interface FakeMouth extends Mouth {
  readonly said: readonly Said[]
  /** What is being said now. */
  now(): string | null
  /** The present text ends; throws when nothing is being said. */
  finish(): void
  /** The present text cannot be heard, and the mouth is mute from then on. */
  fail(reason: MuteReason): void
  become(state: MouthState): void
  readonly unlocks: number
}

/** By hand: a text ends when the test says so. Otherwise every text takes `ms` on the clock. */
export type Speaking =
  | { readonly kind: 'by-hand' }
  | { readonly kind: 'takes'; readonly ms: number; readonly clock: Clock }

/** Saying one text over another throws: whoever speaks must wait or stop first. */
export function fakeMouth(speaking: Speaking = { kind: 'by-hand' }): FakeMouth {
  const state = toldState<MouthState>({ kind: 'ready' })
  const said: { text: string; language: string; outcome: Spoken | null }[] = []
  let present: { readonly text: string; readonly end: (outcome: Spoken) => void } | null = null
  let unlocks = 0

  const end = (outcome: Spoken) => {
    if (!present) throw new Error('Nothing is being said.')
    present.end(outcome)
  }

  return {
    say(text, language) {
      if (present) throw new Error(`Said "${text}" over "${present.text}".`)
      const one: (typeof said)[number] = { text, language, outcome: null }
      said.push(one)
      return new Promise((resolve) => {
        let cancel = () => {}
        present = {
          text,
          end(outcome) {
            cancel()
            present = null
            one.outcome = outcome
            resolve(outcome)
          }
        }
        const mute = state.now()
        if (mute.kind === 'mute') end({ kind: 'failed', reason: mute.reason })
        else if (speaking.kind === 'takes') cancel = speaking.clock.after(speaking.ms, () => end({ kind: 'said' }))
      })
    },
    stop() {
      if (present) end({ kind: 'stopped' })
    },
    unlock() {
      unlocks++
    },
    state: state.now,
    onState: state.onChange,

    said,
    now: () => present?.text ?? null,
    finish: () => end({ kind: 'said' }),
    fail(reason) {
      end({ kind: 'failed', reason })
      state.set({ kind: 'mute', reason })
    },
    become: state.set,
    get unlocks() {
      return unlocks
    }
  }
}
