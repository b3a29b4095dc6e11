/**
 * What was said and heard in a run: on the screen at once, in the record in pieces (transcript-keeper.ts). What was heard
 * and meant nothing here stays on this screen alone: anybody near the microphone may have said it.
 */
import { atom, type ReadableAtom } from 'nanostores'
import type { SpokenLine } from '../core/run/event.ts'
import type { Ports } from './ports.ts'
import type { RunSession } from './run-session.ts'
import type { Speaker } from './speaker.ts'
import type { TranscriptKeeper } from './transcript-keeper.ts'

const MOST_SHOWN = 200

export interface Transcript {
  /** The newest last; `text` is null for what meant nothing, once the page was loaded again. */
  readonly $lines: ReadableAtom<readonly SpokenLine[]>
  /** Stands on the screen from now on; it is in the record once it sounds. */
  shown(text: string): void
  heard(text: string, meantSomething: boolean): void
  stop(): void
}

export interface TranscriptParts {
  readonly session: RunSession
  readonly speaker: Speaker
  /** There is something to send. */
  readonly kept: () => void
  /** Trusted epoch ms. */
  readonly now: () => number
}

export function openTranscript(ports: Pick<Ports, 'clock'>, parts: TranscriptParts): Transcript {
  const { session, speaker, now } = parts
  const before = session.$state
    .get()
    .events.flatMap((event) => (event.type === 'spoken' && event.device === session.device ? event.lines : []))
  const $lines = atom<readonly SpokenLine[]>(before)
  // Nothing has to be kept before the first screen is there; until then the lines wait.
  let keeper: TranscriptKeeper | null = null
  const waiting: SpokenLine[] = []
  void import('./transcript-keeper.ts').then(
    ({ keepLines }) => {
      keeper = keepLines(ports, parts)
      waiting.forEach(keeper.keep)
    },
    // The page was loaded without its server, and had not been kept whole.
    () => {}
  )
  const keep = (said: SpokenLine): void => {
    if (keeper) keeper.keep(said)
    else waiting.push(said)
  }
  const line = (who: SpokenLine['who'], text: string | null): SpokenLine => ({ who, at: now(), text })
  const show = (shown: SpokenLine) => $lines.set([...$lines.get(), shown].slice(-MOST_SHOWN))
  const stopListening = speaker.$line.listen((spoken) => spoken && keep(line('sidecall', spoken.text)))

  return {
    $lines,
    shown: (text) => show(line('sidecall', text)),
    heard(text, meantSomething) {
      show(line('operator', text))
      keep(line('operator', meantSomething ? text : null))
    },
    stop() {
      stopListening()
      keeper?.stop()
    }
  }
}
