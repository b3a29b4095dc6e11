/**
 * What was said and heard in a run: on the screen at once, in the record in pieces, so that it takes few entries. What
 * was heard and meant nothing here stays on this screen alone: anybody near the microphone may have said it.
 */
import { atom, type ReadableAtom } from 'nanostores'
import type { SpokenLine } from '../core/run/event.ts'
import type { Ports } from './ports.ts'
import type { RunSession } from './run-session.ts'
import type { Speaker } from './speaker.ts'

/** On the screen. */
const MOST_SHOWN = 200
const LINES_AT_ONCE = 25
/** A dead battery takes no more than this with it, ms. */
const LATEST_MS = 30_000
/** Once the run is over, its last words are kept, and nothing after them: somebody may be about to sign, ms. */
const LAST_WORDS_MS = 5000

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

export function keepTranscript(
  { clock }: Pick<Ports, 'clock'>,
  { session, speaker, kept, now }: TranscriptParts
): Transcript {
  const { device } = session
  const $lines = atom<readonly SpokenLine[]>(linesBefore(session).slice(-MOST_SHOWN))
  let pending: readonly SpokenLine[] = []
  let isOver = hasEnded()
  let cancel: (() => void) | null = null

  function hasEnded(): boolean {
    const { status } = session.$state.get().run
    return status === 'finished' || status === 'abandoned'
  }

  function show(line: SpokenLine): void {
    $lines.set([...$lines.get(), line].slice(-MOST_SHOWN))
  }

  function keep(line: SpokenLine): void {
    if (isOver) return
    pending = [...pending, line]
    if (pending.length >= LINES_AT_ONCE) void flush()
    else cancel ??= clock.after(LATEST_MS, () => void flush())
  }

  async function flush(): Promise<void> {
    cancel?.()
    cancel = null
    isOver ||= hasEnded()
    const lines = pending
    pending = []
    if (lines.length === 0) return
    if (await session.note({ type: 'spoken', lines })) return kept()
    // The disk is full, say: once more with what comes next, as far as that goes.
    pending = [...lines, ...pending].slice(-LINES_AT_ONCE)
  }

  const stopListening = speaker.$line.listen((line) => {
    if (line) keep({ who: 'sidecall', at: now(), text: line.text })
  })
  const stopWatching = session.$state.listen(() => {
    if (isOver || !hasEnded()) return
    cancel?.()
    cancel = clock.after(LAST_WORDS_MS, () => void flush())
  })

  return {
    $lines,
    shown: (text) => show({ who: 'sidecall', at: now(), text }),
    heard(text, meantSomething) {
      show({ who: 'operator', at: now(), text })
      keep({ who: 'operator', at: now(), text: meantSomething ? text : null })
    },
    stop() {
      stopListening()
      stopWatching()
      void flush()
    }
  }

  function linesBefore({ $state }: RunSession): readonly SpokenLine[] {
    return $state
      .get()
      .events.flatMap((event) => (event.type === 'spoken' && event.device === device ? event.lines : []))
  }
}
