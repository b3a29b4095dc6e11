import type { Alarm } from '../ports/alarm.ts'
import { burstOf } from './alarm-pattern.ts'
import { startTone, type Tone } from './alarm-tone.ts'
import { audioOutput, type AudioLine, type AudioOutput, type AudioParts } from './audio-output.ts'

interface Planned {
  readonly line: AudioLine
  /** Seconds on the line's own clock. */
  readonly at: number
  readonly tone: Tone
}

interface Scheduled {
  /** On the clock's steady line. */
  readonly due: number
  /** Null while there was no line to hand it to. */
  planned: Planned | null
}

interface Ringing {
  readonly end: () => void
}

/** How far the audio clock may drift from the steady line before a scheduled tone is set anew. */
const DRIFT_SECONDS = 0.1
/** A start in the very next audio block would cut the rise of the first pulse. */
const LEAD_SECONDS = 0.01
/** A second path to the same alarm is not later than this after the first. */
const JOIN_SECONDS = 0.2

/** `level` is what really goes out, root mean square 0 to 1; a browser test listens with it. `output` is for the voice, too. */
export function webAudioAlarm(parts: AudioParts): Alarm & { level(): number; readonly output: AudioOutput } {
  const { clock } = parts
  const output = audioOutput(parts)
  const scheduled = new Map<string, Scheduled>()
  const ringing = new Set<Ringing>()
  const first = burstOf(0)

  /** Only the audio clock knows what was heard: it stands still while the steady line goes on. */
  const secondsLeft = ({ line, at }: Planned) => at + first.lengthMs / 1000 - line.context.currentTime
  const begun = ({ line, at }: Planned) => line.context.currentTime >= at

  const plan = (entry: Scheduled, line: AudioLine) => {
    const at = line.context.currentTime + Math.max(LEAD_SECONDS, (entry.due - clock.steady()) / 1000)
    const { planned } = entry
    if (planned?.line === line && (begun(planned) || Math.abs(planned.at - at) < DRIFT_SECONDS)) return
    planned?.tone.stop()
    entry.planned = { line, at, tone: startTone(line.context, line.output, line.shape, first, at) }
  }

  output.onCheck((line) => {
    for (const [key, entry] of scheduled) {
      if (entry.planned?.line === line && secondsLeft(entry.planned) <= 0) scheduled.delete(key)
      else plan(entry, line)
    }
  })

  const drop = (key: string, entry: Scheduled) => {
    if (scheduled.get(key) !== entry) return
    scheduled.delete(key)
    entry.planned?.tone.stop()
  }

  const ringFor = (ms: number, tone: Tone | null): Promise<void> =>
    new Promise((resolve) => {
      const cancel = clock.after(ms, () => {
        ringing.delete(one)
        resolve()
      })
      const one: Ringing = {
        end() {
          cancel()
          ringing.delete(one)
          tone?.stop()
          resolve()
        }
      }
      ringing.add(one)
    })

  return {
    unlock: output.unlock,
    schedule(key, inMs) {
      const before = scheduled.get(key)
      if (before) drop(key, before)
      const entry: Scheduled = { due: clock.steady() + Math.max(0, inMs), planned: null }
      scheduled.set(key, entry)
      const line = output.line()
      if (line) plan(entry, line)
      return () => drop(key, entry)
    },
    ring(urgency) {
      const line = output.line()
      if (!line) return Promise.resolve()
      for (const [key, entry] of [...scheduled]) {
        const { planned } = entry
        if (planned?.line !== line || planned.at - line.context.currentTime > JOIN_SECONDS) continue
        const left = secondsLeft(planned)
        if (left > 0 && urgency < 1) return ringFor(left * 1000, null)
        drop(key, entry)
      }
      const burst = burstOf(urgency)
      const at = line.context.currentTime + LEAD_SECONDS
      const tone = startTone(line.context, line.output, line.shape, burst, at)
      return ringFor(burst.lengthMs + LEAD_SECONDS * 1000, tone)
    },
    silence() {
      for (const one of [...ringing]) one.end()
      for (const [key, entry] of [...scheduled]) if (entry.planned && begun(entry.planned)) drop(key, entry)
    },
    state: output.state,
    onState: output.onState,
    level: output.level,
    output
  }
}
