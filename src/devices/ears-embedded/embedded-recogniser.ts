/** The embedded ears behind the standard recognition interface, so that they stand in wherever the browser's are missing. */
import type { Candidate } from '../../core/ears/judge-utterance.ts'
import type { Recogniser, RecogniserAlternative, RecogniserResult } from '../recogniser.ts'
import type { FromDesk } from './desk-messages.ts'
import type { Engine } from './engine.ts'

/** Scores are standard deviations from other speech; beyond this nothing gets more certain. */
const CERTAIN = 6
/** What is farther from every phrase than this is other talk, and nobody who spoke to us. */
const ALMOST = 1.5
const MOST_CLOSE = 2

class EmbeddedRecogniser extends EventTarget implements Recogniser {
  lang = ''
  continuous = true
  interimResults = false
  maxAlternatives = 1
  private readonly engine: Engine
  private results: RecogniserResult[] = []
  private stop: (() => void) | null = null

  constructor(engine: Engine) {
    super()
    this.engine = engine
  }

  start(): void {
    if (this.stop) throw new DOMException('recognition has already started', 'InvalidStateError')
    this.stop = this.engine.stream(null, {
      began: () => {
        this.tell('start')
        this.tell('audiostart')
      },
      told: (message) => this.heard(message),
      failed: (error) => {
        this.stop = null
        this.dispatchEvent(Object.assign(new Event('error'), { error }))
        this.tell('end')
      }
    })
  }

  abort(): void {
    if (!this.stop) return
    this.stop()
    this.stop = null
    queueMicrotask(() => this.tell('end'))
  }

  private tell(type: string): void {
    this.dispatchEvent(new Event(type))
  }

  private heard(message: FromDesk): void {
    // Whoever watches over a recogniser wants to see that it is alive.
    if (message.kind === 'level') return this.sound(message.peak)
    if (message.kind !== 'found') return
    if (message.how === 'unknown') return this.missed(message.candidates)
    const alternatives = message.candidates
      .slice(0, message.how === 'sure' ? this.maxAlternatives : 1)
      .map(alternativeOf)
    const result = Object.assign([...alternatives], { isFinal: true, unsure: message.how === 'unsure' })
    this.results = [...this.results, result]
    this.dispatchEvent(
      Object.assign(new Event('result'), { resultIndex: this.results.length - 1, results: this.results })
    )
  }

  /** The standard lets results that are below the threshold come with it. */
  private missed(candidates: readonly Candidate[]): void {
    const close = candidates.filter(({ score }) => score >= ALMOST).slice(0, MOST_CLOSE)
    const result = Object.assign(close.map(alternativeOf), { isFinal: true })
    this.dispatchEvent(
      Object.assign(new Event('nomatch'), { resultIndex: 0, results: close.length > 0 ? [result] : [] })
    )
  }

  private lastSound = 0
  private sound(peak: number): void {
    this.lastSound += 1
    if (peak > 0 && this.lastSound % SOUNDS_EVERY === 0) this.tell('soundstart')
  }
}

function alternativeOf({ words, score }: Candidate): RecogniserAlternative {
  return { transcript: words, confidence: Math.min(1, Math.max(0, score / CERTAIN)) }
}

/** Portions of 32 ms: twice a second. */
const SOUNDS_EVERY = 16

export function embeddedRecogniser(engine: Engine): Recogniser {
  return new EmbeddedRecogniser(engine)
}
