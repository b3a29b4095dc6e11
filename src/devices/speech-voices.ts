import type { Clock } from '../ports/clock.ts'
import { listeners } from './listeners.ts'

/** The part of a browser's voice that choosing needs. */
export type Voice = Pick<SpeechSynthesisVoice, 'lang' | 'localService' | 'default'>

export interface VoiceList {
  getVoices(): SpeechSynthesisVoice[]
  addEventListener(type: 'voiceschanged', listener: () => void): void
}

const POLL_MS = 250
const PATIENCE_MS = 5000

/**
 * A voice on the device before one that needs a network, then the exact region, then the browser's own choice. Null when
 * no voice speaks the language: another language's voice would not be understood.
 */
export function pickVoice<V extends Voice>(voices: readonly V[], language: string): V | null {
  const wanted = plainTag(language)
  const base = (tag: string) => tag.split('-')[0]
  const score = (voice: V) =>
    (voice.localService ? 4 : 0) + (plainTag(voice.lang) === wanted ? 2 : 0) + (voice.default ? 1 : 0)
  return voices
    .filter((voice) => base(plainTag(voice.lang)) === base(wanted))
    .reduce<V | null>((best, voice) => (best && score(best) >= score(voice) ? best : voice), null)
}

/** Android writes `en_US`. */
function plainTag(language: string): string {
  return language.replaceAll('_', '-').toLowerCase()
}

export interface Voices {
  now(): readonly SpeechSynthesisVoice[]
  /** `none` after five seconds without any; voices that come later are still taken. */
  state(): 'waiting' | 'some' | 'none'
  onState(tell: () => void): () => void
}

/** Voices come late, with or without an event: Firefox loads them on the first question, older Safari tells nobody. */
export function lateVoices(list: VoiceList, clock: Clock): Voices {
  const told = listeners<void>()
  const begun = clock.steady()
  let state: 'waiting' | 'some' | 'none' = 'waiting'

  const look = () => {
    const before = state
    if (list.getVoices().length > 0) state = 'some'
    else if (state === 'some' || clock.steady() - begun >= PATIENCE_MS) state = 'none'
    if (state !== before) told.tell()
  }
  const poll = () => {
    look()
    if (state === 'waiting') clock.after(POLL_MS, poll)
  }
  list.addEventListener('voiceschanged', look)
  poll()

  return { now: () => list.getVoices(), state: () => state, onState: told.add }
}
