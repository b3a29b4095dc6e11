/**
 * Says what there are clips for through the page's own sound output, the same voice on every device; leaves the rest to the
 * next mouth, and then to the embedded engine. Where nobody can be heard, two soft notes say that there is something to read.
 */
import type { Piece } from '../core/talk/clips/cover.ts'
import type { Sound } from '../core/talk/clips/ima-adpcm.ts'
import type { Clock } from '../ports/clock.ts'
import type { Mouth, MouthState, Pace, Spoken } from '../ports/mouth.ts'
import { READ_ME } from './alarm-pattern.ts'
import { startTone } from './alarm-tone.ts'
import type { AudioLine, AudioOutput } from './audio-output.ts'
import type { ClipSource } from './speech-clips-http.ts'
import type { SpeechEngine } from './speech-engine.ts'
import { toldState } from './told-state.ts'

export interface ClipMouthParts {
  readonly output: AudioOutput
  readonly clips: ClipSource & { onState(tell: () => void): () => void }
  readonly next: Mouth
  /** The clips' own voice for what has none, where the next mouth cannot be heard. */
  readonly engine: SpeechEngine
  readonly clock: Clock
}

/** A start in the very next audio block would cut the first consonant. */
const LEAD_SECONDS = 0.01
const OF_ENGINE = /^en(-|$)/
const BETWEEN_SECONDS = 0.25
const PAUSE_SECONDS = { none: 0, short: 0.12, long: 0.3 }
const FADE_SECONDS = 0.008
/** The pitch sinks a little with it; the longer pauses help more. */
const SLOW_RATE = 0.88
const WATCHDOG_EXTRA_MS = 1500

export function clipMouth({ output, clips, next, engine, clock }: ClipMouthParts): Mouth {
  const describe = (): MouthState => {
    const sound = output.state()
    if (clips.isEmpty()) return next.state()
    if (sound.kind === 'ready') return { kind: 'ready' }
    return next.state().kind === 'ready'
      ? next.state()
      : { kind: 'mute', reason: sound.reason === 'needs-tap' ? 'needs-tap' : 'engine-failed' }
  }
  const state = toldState<MouthState>(describe())
  const look = () => state.set(describe())
  output.onState(look)
  clips.onState(look)
  next.onState(look)
  let stopNow = () => {}
  let stops = 0
  let queue: Promise<unknown> = Promise.resolve()
  /** On the audio clock: when the next text may begin. */
  let free = 0

  const play = (
    { context, output: to }: AudioLine,
    pieces: readonly Piece<Sound>[],
    pace: Pace | undefined
  ): Promise<Spoken | 'not-heard'> =>
    new Promise((resolve) => {
      const volume = context.createGain()
      volume.connect(to)
      let at = Math.max(context.currentTime + LEAD_SECONDS, Math.min(free, context.currentTime + BETWEEN_SECONDS))
      const began = at
      const rate = pace === 'slow' ? SLOW_RATE : 1
      const sources = pieces.map(({ clip, pause }) => {
        const source = context.createBufferSource()
        source.buffer = bufferOf(context, clip)
        source.playbackRate.value = rate
        source.connect(volume)
        source.start(at)
        at += clip.pcm.length / clip.rate / rate + PAUSE_SECONDS[pause] * (pace === 'slow' ? 2 : 1)
        return source
      })
      let over = false
      const finish = (spoken: Spoken | 'not-heard') => {
        if (over) return
        over = true
        cancelWatch()
        stopNow = () => {}
        resolve(spoken)
      }
      const end = (spoken: Spoken | 'not-heard') => {
        const now = context.currentTime
        volume.gain.setValueAtTime(1, now)
        volume.gain.linearRampToValueAtTime(0, now + FADE_SECONDS)
        for (const source of sources) source.stop(now + FADE_SECONDS)
        finish(spoken)
      }
      const cancelWatch = clock.after((at - began) * 1000 + WATCHDOG_EXTRA_MS, () => end('not-heard'))
      stopNow = () => end({ kind: 'stopped' })
      sources.at(-1)?.addEventListener('ended', () => {
        free = context.currentTime + BETWEEN_SECONDS
        finish({ kind: 'said' })
      })
    })

  const speak = async (text: string, language: string, pace: Pace | undefined): Promise<Spoken> => {
    const asked = stops
    const line = output.line()
    const pieces = line && clips.saying(text, language)
    if (line && pieces) {
      const spoken = await play(line, pieces, pace).catch((): 'not-heard' => 'not-heard')
      if (spoken !== 'not-heard') return spoken
    }
    if (stops !== asked) return { kind: 'stopped' }
    const spoken = await next.say(text, language, pace)
    return spoken.kind === 'failed' ? ((await byEngine(text, language, asked, pace)) ?? spoken) : spoken
  }

  /** Null where that could not be heard either. */
  const byEngine = async (
    text: string,
    language: string,
    asked: number,
    pace: Pace | undefined
  ): Promise<Spoken | null> => {
    const speaks = output.line() !== null && OF_ENGINE.test(language)
    const sound = speaks ? await engine(text) : null
    if (stops !== asked) return { kind: 'stopped' }
    const line = output.line()
    const spoken = sound && line && (await play(line, [{ clip: sound, pause: 'none' }], pace).catch(() => null))
    if (spoken && spoken !== 'not-heard') return spoken
    readMe()
    return null
  }

  /** There is something on the screen. */
  const readMe = () => {
    const line = output.line()
    if (line) startTone(line.context, line.output, line.shape, READ_ME, line.context.currentTime + LEAD_SECONDS)
  }

  return {
    say(text, language, pace) {
      const asked = stops
      const spoken = queue.then(() => (stops === asked ? speak(text, language, pace) : ({ kind: 'stopped' } as const)))
      queue = spoken
      return spoken
    },
    stop() {
      stops += 1
      stopNow()
      next.stop()
    },
    unlock() {
      next.unlock()
    },
    state: state.now,
    onState: state.onChange
  }
}

function bufferOf(context: BaseAudioContext, { rate, pcm }: Sound): AudioBuffer {
  const buffer = context.createBuffer(1, pcm.length, rate)
  const samples = buffer.getChannelData(0)
  for (let index = 0; index < pcm.length; index += 1) samples[index] = (pcm[index] ?? 0) / 32768
  return buffer
}
