/** People for tests in a real browser: voices of the embedded engine, other than the one that the app speaks with. */
import { openEngine } from '../../server/speech/engine.ts'
import { resampler } from '../../src/core/ears/resample.ts'
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'
import { fliteArguments } from '../../src/core/talk/clips/flite.ts'

/** Samples at 16 kHz, the loudest of them at `PEAK`. `pace` above 1 is slower; nobody says a thing twice alike. */
export type Person = (text: string, pace?: number) => Promise<Float32Array>

const PEAK = 0.5

export async function spokenBy(voice: 'slt' | 'awb' | 'kal'): Promise<Person> {
  let stretch = 1
  const engine = await openEngine((text) => fliteArguments(text, voice, stretch))
  return async (text, pace = 1) => {
    stretch = pace
    const sound = await engine(text)
    if (sound === null) throw new Error(`${voice} cannot say "${text}".`)
    const samples = resampler(sound.rate, SAMPLE_RATE)(Float32Array.from(sound.pcm, (value) => value / 32_768))
    const loudest = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0)
    return samples.map((value) => (value * PEAK) / loudest)
  }
}
