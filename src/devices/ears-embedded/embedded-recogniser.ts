/** The embedded ears behind the standard recognition interface, so that they stand in wherever the browser's are missing. */
import type { Recogniser, RecogniserResult } from '../recogniser.ts'
import type { FromDesk } from './desk-messages.ts'
import type { Engine } from './engine.ts'

/** Scores are standard deviations from other speech; beyond this nothing gets more certain. */
const CERTAIN = 6

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
    if (message.how === 'unknown') return this.tell('nomatch')
    const alternatives = message.candidates
      .slice(0, message.how === 'sure' ? this.maxAlternatives : 1)
      .map(({ words, score }) => ({ transcript: words, confidence: Math.min(1, Math.max(0, score / CERTAIN)) }))
    const result = Object.assign([...alternatives], { isFinal: true, unsure: message.how === 'unsure' })
    this.results = [...this.results, result]
    this.dispatchEvent(
      Object.assign(new Event('result'), { resultIndex: this.results.length - 1, results: this.results })
    )
  }

  private lastSound = 0
  private sound(peak: number): void {
    this.lastSound += 1
    if (peak > 0 && this.lastSound % SOUNDS_EVERY === 0) this.tell('soundstart')
  }
}

/** Portions of 32 ms: twice a second. */
const SOUNDS_EVERY = 16

export function embeddedRecogniser(engine: Engine): Recogniser {
  return new EmbeddedRecogniser(engine)
}
