/** The life of one recogniser object, from its start to the moment another may start. */
import type { Clock } from '../ports/clock.ts'
import type { Heard } from '../ports/ears.ts'
import type { SessionEnd } from './ears-policy.ts'
import { utterances } from './ears-utterances.ts'
import type { ListeningManner, Recogniser, RecogniserErrorEvent, RecogniserResultEvent } from './recogniser.ts'

export interface SessionParts {
  readonly makeRecogniser: () => Recogniser
  readonly manner: ListeningManner
  readonly language: string
  readonly clock: Clock
  readonly online: () => boolean
  /** How long the engine may take to say that it has started. */
  readonly startPatienceMs: number
}

export interface SessionNews {
  started(): void
  signOfLife(of: 'microphone' | 'engine'): void
  heard(heard: Heard): void
  missed(closest: readonly string[]): void
  /** It ended without being closed. Comes at most once, and never after `close`. */
  ended(end: SessionEnd): void
  /** Nothing of it is alive any more. Comes exactly once, after `ended` or `close`. */
  gone(): void
}

export type SessionPhase = 'starting' | 'running' | 'closing' | 'gone'

export interface Session {
  start(): void
  close(): void
  phase(): SessionPhase
}

const SILENCE_PATIENCE_MS = 20_000
/** The `end` that should follow an error or an abort does not always come. */
const END_PATIENCE_MS = 1000
const ALTERNATIVES = 5
const SIGNS_OF_LIFE = {
  soundstart: 'microphone',
  speechstart: 'microphone',
  nomatch: 'engine',
  result: 'engine'
} as const
const OTHER_EVENTS = ['audioend', 'soundend', 'speechend'] as const

export function earsSession(parts: SessionParts, news: SessionNews): Session {
  const { clock } = parts
  const spoken = utterances(parts.manner, clock, news.heard)
  let phase: SessionPhase = 'starting'
  let recogniser: Recogniser | null = null
  let startedAt = clock.steady()
  let cancelWatch = () => {}

  const isLive = () => phase === 'starting' || phase === 'running'

  const watch = (ms: number) => {
    cancelWatch()
    cancelWatch = clock.after(ms, () => {
      end({ kind: 'no-answer' })
    })
  }
  const abort = () => {
    try {
      recogniser?.abort()
    } catch {
      // It is thrown away either way.
    }
  }
  const gone = () => {
    if (phase === 'gone') return
    phase = 'gone'
    cancelWatch()
    news.gone()
  }
  /** From here on only `end` is listened to, and not for ever. */
  const closing = () => {
    phase = 'closing'
    cancelWatch()
    cancelWatch = clock.after(END_PATIENCE_MS, gone)
  }
  const end = (how: SessionEnd) => {
    if (!isLive()) return
    spoken.drop()
    closing()
    news.ended(how)
    abort()
  }
  const note = () => {
    if (!isLive()) return
    if (phase === 'running') watch(SILENCE_PATIENCE_MS)
  }

  const listen = (it: Recogniser) => {
    const started = () => {
      if (!isLive()) return
      const first = phase === 'starting'
      phase = 'running'
      watch(SILENCE_PATIENCE_MS)
      if (first) news.started()
    }
    it.addEventListener('start', started)
    it.addEventListener('audiostart', started)
    for (const [type, of] of Object.entries(SIGNS_OF_LIFE)) {
      it.addEventListener(type, (event) => {
        // Some engines skip `start`; a sound is proof enough.
        started()
        if (!isLive()) return
        news.signOfLife(of)
        if (type === 'speechstart') spoken.speechStarted()
        if (type === 'result') spoken.result(event as RecogniserResultEvent)
        const closest = type === 'nomatch' ? wordsIn(event) : []
        if (closest.length > 0) news.missed(closest)
      })
    }
    for (const type of OTHER_EVENTS) it.addEventListener(type, note)
    it.addEventListener('error', (event) => {
      if (!isLive()) return
      const code = (event as RecogniserErrorEvent).error
      if (code === 'no-speech') news.signOfLife('microphone')
      end({ kind: 'error', code, afterMs: clock.steady() - startedAt, online: parts.online() })
    })
    it.addEventListener('end', () => {
      if (phase === 'closing') return gone()
      if (phase === 'gone') return
      const ran = phase === 'running'
      phase = 'closing'
      spoken.finish()
      if (ran) news.signOfLife('microphone')
      news.ended({ kind: 'ended' })
      gone()
    })
  }

  return {
    start() {
      startedAt = clock.steady()
      try {
        recogniser = parts.makeRecogniser()
        recogniser.lang = parts.language
        recogniser.continuous = parts.manner === 'keeps-listening'
        recogniser.interimResults = parts.manner === 'keeps-listening'
        recogniser.maxAlternatives = ALTERNATIVES
        listen(recogniser)
        watch(parts.startPatienceMs)
        recogniser.start()
      } catch (thrown) {
        end({ kind: 'start-threw', name: thrown instanceof Error ? thrown.name : 'unknown' })
      }
    },
    close() {
      if (!isLive()) return
      spoken.drop()
      closing()
      abort()
    },
    phase: () => phase
  }
}

/** What a recogniser was not certain enough of, if it tells. */
function wordsIn({ results }: Partial<RecogniserResultEvent>): readonly string[] {
  const result = results?.[results.length - 1]
  return Array.from({ length: result?.length ?? 0 }, (_, index) => result?.[index]?.transcript.trim() ?? '').filter(
    (words) => words !== ''
  )
}
