/** Turns the result events of one recogniser session into finished utterances. */
import type { Clock } from '../ports/clock.ts'
import type { Heard } from '../ports/ears.ts'
import type { ListeningManner, RecogniserResult, RecogniserResultEvent } from './recogniser.ts'

export interface Utterances {
  speechStarted(): void
  result(event: RecogniserResultEvent): void
  /** The session ended well: what is still held is now as finished as it will be. */
  finish(): void
  /** The session failed or was cut off: what is still held may be half a word. */
  drop(): void
}

/** Chrome on Android says a growing utterance is final several times over; only the last one is (react-speech-recognition #18, #89). */
const SETTLE_MS = 250

export function utterances(manner: ListeningManner, clock: Clock, tell: (heard: Heard) => void): Utterances {
  const noticed = new Map<number, number>()
  const told = new Set<number>()
  let speechSteady: number | null = null
  let held: Heard | null = null
  let cancelSettle = () => {}

  const release = () => {
    cancelSettle()
    const heard = held
    held = null
    if (heard) tell(heard)
  }
  const drop = () => {
    cancelSettle()
    held = null
  }

  return {
    speechStarted() {
      speechSteady ??= clock.steady()
    },
    result(event) {
      for (let index = event.resultIndex; index < event.results.length; index++) {
        const result = event.results[index]
        if (!result) continue
        if (!noticed.has(index)) {
          noticed.set(index, speechSteady ?? clock.steady())
          speechSteady = null
        }
        if (!result.isFinal) continue
        const heard = readResult(result, noticed.get(index) ?? clock.steady())
        if (!heard) continue
        if (manner === 'keeps-listening') {
          // A continuous session may list an utterance again that it finished before.
          if (told.has(index)) continue
          told.add(index)
          tell(heard)
          continue
        }
        // Held under its first start, so that a later, fuller version does not look newer than it is.
        held = { ...heard, startedSteady: held?.startedSteady ?? heard.startedSteady }
        cancelSettle()
        // Android marks guesses as final with confidence 0; they count only when the session ends with nothing better.
        if (heard.alternatives[0]?.confidence) cancelSettle = clock.after(SETTLE_MS, release)
      }
    },
    finish: release,
    drop
  }
}

function readResult(result: RecogniserResult, startedSteady: number): Heard | null {
  const alternatives: { words: string; confidence: number }[] = []
  for (let index = 0; index < result.length; index++) {
    const found = result[index]
    const words = found?.transcript.trim() ?? ''
    if (!found || words === '') continue
    // Some engines answer NaN or leave it out.
    const confidence = Number.isFinite(found.confidence) ? Math.min(1, Math.max(0, found.confidence)) : 0
    alternatives.push({ words, confidence })
  }
  if (alternatives.length === 0) return null
  return result.unsure ? { alternatives, startedSteady, unsure: true } : { alternatives, startedSteady }
}
