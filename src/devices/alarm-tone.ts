import { OVERTONES, type Burst } from './alarm-pattern.ts'

/** One burst handed to the audio hardware. */
export interface Tone {
  /** Fades out within a few milliseconds; a burst that has not begun never sounds. */
  stop(): void
}

const FADE_SECONDS = 0.02

export function toneShape(context: BaseAudioContext): PeriodicWave {
  // The first entry is the constant part. The browser scales the sum to a peak of 1.
  const sine = new Float32Array([0, ...OVERTONES])
  return context.createPeriodicWave(new Float32Array(sine.length), sine)
}

/** `at` is in seconds of the audio clock. */
export function startTone(
  context: BaseAudioContext,
  output: AudioNode,
  shape: PeriodicWave,
  burst: Burst,
  at: number
): Tone {
  const volume = context.createGain()
  volume.connect(output)
  const oscillators = burst.pulses.map((pulse) => {
    const begin = at + pulse.atMs / 1000
    const end = begin + pulse.lengthMs / 1000
    const envelope = context.createGain()
    envelope.gain.value = 0
    envelope.gain.setValueAtTime(0, begin)
    envelope.gain.linearRampToValueAtTime(pulse.peak, begin + pulse.riseMs / 1000)
    envelope.gain.setValueAtTime(pulse.peak, end - pulse.fallMs / 1000)
    envelope.gain.linearRampToValueAtTime(0, end)
    envelope.connect(volume)

    const oscillator = context.createOscillator()
    oscillator.setPeriodicWave(shape)
    oscillator.frequency.value = pulse.hertz
    oscillator.connect(envelope)
    oscillator.start(begin)
    oscillator.stop(end)
    return oscillator
  })
  return {
    stop() {
      const now = context.currentTime
      volume.gain.setValueAtTime(1, now)
      volume.gain.linearRampToValueAtTime(0, now + FADE_SECONDS)
      for (const oscillator of oscillators) oscillator.stop(now + FADE_SECONDS)
    }
  }
}
