/** Keeps what was said and heard in the run, in pieces, so that it takes few entries. */
import type { SpokenLine } from '../core/run/event.ts'
import type { Ports } from './ports.ts'
import type { TranscriptParts } from './transcript.ts'

const LINES_AT_ONCE = 25
/** A dead battery takes no more than this with it, ms. */
const LATEST_MS = 30_000
/** Once the run is over, its last words are kept, and nothing after them: somebody may be about to sign, ms. */
const LAST_WORDS_MS = 5000

export interface TranscriptKeeper {
  keep(line: SpokenLine): void
  /** Keeps what is left. */
  stop(): void
}

export function keepLines(
  { clock }: Pick<Ports, 'clock'>,
  { session, kept }: Pick<TranscriptParts, 'session' | 'kept'>
): TranscriptKeeper {
  let pending: readonly SpokenLine[] = []
  let isOver = hasEnded()
  let cancel: (() => void) | null = null

  function hasEnded(): boolean {
    const { status } = session.$state.get().run
    return status === 'finished' || status === 'abandoned'
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

  const stopWatching = session.$state.listen(() => {
    if (isOver || !hasEnded()) return
    cancel?.()
    cancel = clock.after(LAST_WORDS_MS, () => void flush())
  })

  return {
    keep(line) {
      if (isOver) return
      pending = [...pending, line]
      if (pending.length >= LINES_AT_ONCE) void flush()
      else cancel ??= clock.after(LATEST_MS, () => void flush())
    },
    stop() {
      stopWatching()
      void flush()
    }
  }
}
