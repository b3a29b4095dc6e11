import type { Synthesizer } from '../../src/devices/mouth-speech-synthesis.ts'

export interface FakeSynthesizer extends Synthesizer {
  readonly makeUtterance: (text: string) => SpeechSynthesisUtterance
  /** Texts handed over, in order; an empty one is the unlocking. */
  readonly spoken: readonly string[]
  last(): SpeechSynthesisUtterance
  /** Whether there is an utterance to end; a stuck engine says `speaking` without one. */
  readonly voiced: boolean
  /** The present utterance ends; throws when there is none. */
  end(): void
  error(code: SpeechSynthesisErrorCode): void
  /** Voices come, go or change, with an event or without. */
  setVoices(voices: readonly FakeVoice[], options?: { tell: boolean }): void
  /** What `cancel` leads to: an error event at once, or nothing at all while it stays `speaking` for ever. */
  cancelling: 'answers' | 'says-nothing' | 'stays-stuck'
  readonly cancels: number
  /** The next `speak` throws. */
  throwNext(): void
}

export type FakeVoice = {
  readonly lang: string
  readonly localService?: boolean
  readonly default?: boolean
  readonly name?: string
}

export const ENGLISH: FakeVoice = { lang: 'en-US', localService: true }

/** Speaks nothing by itself. Two utterances at once fail the test run. */
export function fakeSynthesizer(first: readonly FakeVoice[] = [ENGLISH]): FakeSynthesizer {
  const target = new EventTarget()
  const spoken: string[] = []
  let voices: readonly FakeVoice[] = first
  let present: SpeechSynthesisUtterance | null = null
  let latest: SpeechSynthesisUtterance | null = null
  let stuck = false
  let throws = false
  let cancels = 0

  const finish = (event: Event) => {
    const utterance = present
    if (!utterance) throw new Error('Nothing is being spoken.')
    present = null
    utterance.dispatchEvent(event)
  }

  const synthesizer: FakeSynthesizer = {
    get speaking() {
      return present !== null || stuck
    },
    get voiced() {
      return present !== null
    },
    pending: false,
    getVoices: () => voices as SpeechSynthesisVoice[],
    addEventListener: (type: string, listener: () => void) => target.addEventListener(type, listener),
    speak(utterance) {
      if (throws) {
        throws = false
        throw new Error('the engine is gone')
      }
      if (present) {
        const fault = new Error(`Spoke ${JSON.stringify(utterance.text)} over ${JSON.stringify(present.text)}.`)
        queueMicrotask(() => {
          throw fault
        })
      }
      stuck = false
      present = utterance
      latest = utterance
      spoken.push(utterance.text)
    },
    cancel() {
      cancels++
      if (!present) return
      if (synthesizer.cancelling === 'answers') {
        finish(Object.assign(new Event('error'), { error: 'canceled' }))
      } else {
        stuck = synthesizer.cancelling === 'stays-stuck'
        present = null
      }
    },
    makeUtterance: (text) =>
      Object.assign(new EventTarget(), {
        text,
        lang: '',
        volume: 1,
        rate: 1,
        pitch: 1,
        voice: null
      }) as unknown as SpeechSynthesisUtterance,
    spoken,
    last() {
      if (!latest) throw new Error('Nothing was spoken yet.')
      return latest
    },
    end: () => finish(new Event('end')),
    error: (code) => finish(Object.assign(new Event('error'), { error: code })),
    setVoices(next, { tell } = { tell: true }) {
      voices = next
      if (tell) target.dispatchEvent(new Event('voiceschanged'))
    },
    cancelling: 'answers',
    get cancels() {
      return cancels
    },
    throwNext() {
      throws = true
    }
  }
  return synthesizer
}
