import type { Clock } from '../ports/clock.ts'
import type { Mouth, MouthState, MuteReason, Spoken } from '../ports/mouth.ts'
import { lateVoices, pickVoice, type VoiceList } from './speech-voices.ts'
import { splitForSpeech } from './split-for-speech.ts'
import { toldState } from './told-state.ts'

/** The part of the browser's synthesizer that is used here. Its pause and resume are not: they break on several systems. */
export interface Synthesizer extends VoiceList {
  readonly speaking: boolean
  readonly pending: boolean
  speak(utterance: SpeechSynthesisUtterance): void
  cancel(): void
}

export interface MouthParts {
  /** Null when the browser cannot speak at all. */
  readonly synthesizer: Synthesizer | null
  readonly makeUtterance: (text: string) => SpeechSynthesisUtterance
  readonly clock: Clock
  /** 1 is the voice's own pace. */
  readonly rate: number
}

/** About 150 words a minute, the usual pace of synthesizers. From memory; the watchdog doubles it anyway. */
const MS_PER_CHARACTER = 80
const WATCHDOG_EXTRA_MS = 2000
/** A new utterance too soon after a cancel is swallowed (votingworks/bmd PR 1106, p5.js-speech 12). */
const CANCEL_PATIENCE_MS = 200
const SLOW_RATE = 0.75

const STOPPED: Spoken = { kind: 'stopped' }
const failed = (reason: MuteReason): Spoken => ({ kind: 'failed', reason })

const MUTE_REASONS: Readonly<Record<string, MuteReason>> = {
  'not-allowed': 'needs-tap',
  'language-unavailable': 'no-voice',
  'voice-unavailable': 'no-voice'
}

export function speechSynthesisMouth(parts: MouthParts): Mouth {
  const { synthesizer, clock } = parts
  if (!synthesizer) return muteMouth()

  const voices = lateVoices(synthesizer, clock)
  let unlocked = false
  let trouble: MuteReason | null = null
  const saying = new Set<AbortController>()
  let queue: Promise<unknown> = Promise.resolve()
  let letGo: Promise<void> = Promise.resolve()
  // Chrome forgets an utterance that only it knows, and then its end never comes.
  let alive: SpeechSynthesisUtterance | null = null
  let unlocking: SpeechSynthesisUtterance | null = null

  const describe = (): MouthState => {
    const reason = voices.state() === 'none' ? 'no-voice' : (trouble ?? (unlocked ? null : 'needs-tap'))
    return reason ? { kind: 'mute', reason } : { kind: 'ready' }
  }
  const state = toldState<MouthState>(describe())
  const tell = () => state.set(describe())
  voices.onState(tell)

  /** Resolves at the `end` or `error` of what is spoken, or when the browser gives no sign. */
  const cancel = (utterance: SpeechSynthesisUtterance | null): Promise<void> => {
    letGo = new Promise((resolve) => {
      clock.after(CANCEL_PATIENCE_MS, resolve)
      utterance?.addEventListener('end', () => resolve())
      utterance?.addEventListener('error', () => resolve())
    })
    try {
      synthesizer.cancel()
    } catch {
      // Then the patience above has to do.
    }
    return letGo
  }

  /** What is left over from before a reload, from the unlocking, or stuck would keep ours waiting. */
  const silenced = async (): Promise<void> => {
    let tried: SpeechSynthesisUtterance | null | undefined
    // Again when a tap unlocked meanwhile; a stuck engine is not asked twice.
    while ((synthesizer.speaking || synthesizer.pending) && tried !== unlocking) {
      tried = unlocking
      await cancel(unlocking)
    }
  }

  const voicesCome = (): Promise<void> =>
    new Promise((resolve) => {
      if (voices.state() !== 'waiting') return resolve()
      const forget = voices.onState(() => {
        forget()
        resolve()
      })
    })

  const utter = (text: string, voice: SpeechSynthesisVoice, rate: number, signal: AbortSignal): Promise<Spoken> =>
    new Promise((resolve) => {
      const utterance = parts.makeUtterance(text)
      utterance.voice = voice
      utterance.lang = voice.lang
      utterance.rate = rate
      alive = utterance

      let over = false
      const finish = (spoken: Spoken) => {
        if (over) return
        over = true
        cancelWatch()
        signal.removeEventListener('abort', stop)
        if (alive === utterance) alive = null
        resolve(spoken)
      }
      const stop = () => {
        // First, since a cancel may answer with an error before it returns.
        finish(STOPPED)
        void cancel(utterance)
      }
      const patienceMs = ((text.length * MS_PER_CHARACTER) / rate) * 2 + WATCHDOG_EXTRA_MS
      const cancelWatch = clock.after(patienceMs, () => {
        finish(failed('not-answering'))
        void cancel(utterance)
      })
      signal.addEventListener('abort', stop)
      utterance.addEventListener('end', () => finish({ kind: 'said' }))
      utterance.addEventListener('error', (event) => finish(failed(MUTE_REASONS[event.error] ?? 'engine-failed')))
      try {
        synthesizer.speak(utterance)
      } catch {
        finish(failed('engine-failed'))
      }
    })

  const speak = async (text: string, language: string, rate: number, signal: AbortSignal): Promise<Spoken> => {
    await orAborted(voicesCome(), signal)
    if (signal.aborted) return STOPPED
    for (const piece of splitForSpeech(text)) {
      await orAborted(letGo, signal)
      if (signal.aborted) return STOPPED
      await orAborted(silenced(), signal)
      if (signal.aborted) return STOPPED
      const voice = pickVoice(voices.now(), language)
      if (!voice) return failed('no-voice')
      const spoken = await utter(piece, voice, rate, signal)
      if (spoken.kind !== 'said') return spoken
    }
    return signal.aborted ? STOPPED : { kind: 'said' }
  }

  return {
    say(text, language, pace) {
      const stopper = new AbortController()
      saying.add(stopper)
      const spoken = queue.then(async () => {
        const outcome = await speak(
          text,
          language,
          parts.rate * (pace === 'slow' ? SLOW_RATE : 1),
          stopper.signal
        ).catch(() => failed('engine-failed'))
        saying.delete(stopper)
        if (outcome.kind === 'said') {
          unlocked = true
          trouble = null
        }
        if (outcome.kind === 'failed') trouble = outcome.reason
        tell()
        return outcome
      })
      queue = spoken
      return spoken
    },
    stop() {
      for (const stopper of saying) stopper.abort()
    },
    unlock() {
      if (synthesizer.speaking || synthesizer.pending) return
      const silent = parts.makeUtterance('')
      silent.volume = 0
      silent.addEventListener('error', (event) => {
        if (event.error !== 'not-allowed') return
        unlocked = false
        trouble = 'needs-tap'
        tell()
      })
      unlocking = silent
      unlocked = true
      if (trouble === 'needs-tap') trouble = null
      try {
        synthesizer.speak(silent)
      } catch {
        unlocked = false
      }
      tell()
    },
    state: state.now,
    onState: state.onChange
  }
}

function orAborted(wait: Promise<void>, signal: AbortSignal): Promise<void> {
  const aborted = new Promise<void>((resolve) => {
    if (signal.aborted) resolve()
    else signal.addEventListener('abort', () => resolve())
  })
  return Promise.race([wait, aborted])
}

function muteMouth(): Mouth {
  return {
    say: () => Promise.resolve(failed('unsupported')),
    stop() {},
    unlock() {},
    state: () => ({ kind: 'mute', reason: 'unsupported' }),
    onState: () => () => {}
  }
}
