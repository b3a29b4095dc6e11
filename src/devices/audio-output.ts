import type { AlarmState } from '../ports/alarm.ts'
import type { Clock } from '../ports/clock.ts'
import { toneShape } from './alarm-tone.ts'
import { listeners } from './listeners.ts'
import { toldState } from './told-state.ts'

export interface AudioParts {
  /** Null when the browser has no Web Audio. */
  readonly makeContext: (() => AudioContext) | null
  readonly clock: Clock
  /** `navigator.audioSession`, Safari only: keeps sound going while the microphone is in use. */
  readonly audioSession: { type: string } | null
}

/** A context that runs, with what is needed to sound through it. */
export interface AudioLine {
  readonly context: AudioContext
  readonly output: AudioNode
  readonly shape: PeriodicWave
}

export interface AudioOutput {
  unlock(): void
  /** Null when nothing would be heard. */
  line(): AudioLine | null
  state(): AlarmState
  onState(tell: (state: AlarmState) => void): () => void
  /** Told whenever sound becomes possible on a line, and again every second after: time to compare the clocks. */
  onCheck(tell: (line: AudioLine) => void): void
  /** Root mean square of what goes to the loudspeaker, 0 to 1. */
  level(): number
}

interface Built extends AudioLine {
  readonly meter: AnalyserNode
}

const CHECK_MS = 1000
const FROZEN_CHECKS = 2
const REBUILD_EVERY_CHECKS = 10

/**
 * Keeps an audio context alive. A phone call or a locked screen interrupts it on iOS, and some come back "running" with
 * a clock that stands still (WebAudio/web-audio-api#2585, webkit.org/b/263627): those are thrown away for a new one.
 */
export function audioOutput({ makeContext, clock, audioSession }: AudioParts): AudioOutput {
  const checks = listeners<AudioLine>()
  let built: Built | null = null
  let broken = makeContext === null
  let frozenChecks = 0
  let last: { readonly context: AudioContext; readonly audio: number } | null = null
  let checking = false

  const running = () => (built?.context.state === 'running' ? built : null)
  const frozen = () => frozenChecks >= FROZEN_CHECKS
  const describe = (): AlarmState => {
    if (broken || frozen()) return { kind: 'silent', reason: 'no-sound' }
    return running() ? { kind: 'ready' } : { kind: 'silent', reason: 'needs-tap' }
  }
  const state = toldState<AlarmState>(describe())

  const build = () => {
    if (!makeContext) return
    try {
      const context = makeContext()
      const meter = context.createAnalyser()
      meter.connect(context.destination)
      const mine: Built = { context, output: meter, meter, shape: toneShape(context) }
      built = mine
      broken = false
      context.addEventListener('statechange', () => {
        if (built !== mine) return
        if (context.state === 'running') checks.tell(mine)
        state.set(describe())
      })
    } catch {
      // Too many contexts, or no sound hardware. Every later tap tries again.
      built = null
      broken = true
    }
  }
  const resume = () => {
    // May reject, or never answer; the state tells what became of it.
    built?.context.resume().catch(() => {})
  }
  const rebuild = () => {
    built?.context.close().catch(() => {})
    build()
    resume()
  }
  const check = () => {
    clock.after(CHECK_MS, check)
    const line = running()
    if (!line) {
      last = null
      if (built) resume()
    } else {
      const audio = line.context.currentTime
      const before = last?.context === line.context ? last.audio : 0
      last = { context: line.context, audio }
      frozenChecks = audio > before ? 0 : frozenChecks + 1
      if (frozenChecks === FROZEN_CHECKS || (frozen() && frozenChecks % REBUILD_EVERY_CHECKS === 0)) rebuild()
      else checks.tell(line)
    }
    state.set(describe())
  }

  return {
    unlock() {
      if (audioSession) audioSession.type = 'play-and-record'
      if (!built || built.context.state === 'closed') build()
      resume()
      if (!checking) {
        checking = true
        clock.after(CHECK_MS, check)
      }
      state.set(describe())
    },
    line: () => (frozen() ? null : running()),
    state: state.now,
    onState: state.onChange,
    onCheck: (tell) => void checks.add(tell),
    level() {
      const line = running()
      if (!line) return 0
      const samples = new Float32Array(line.meter.fftSize)
      line.meter.getFloatTimeDomainData(samples)
      return Math.sqrt(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length)
    }
  }
}
