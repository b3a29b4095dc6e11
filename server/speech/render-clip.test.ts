import { beforeAll, describe, expect, it } from 'vitest'
import { unpackWav } from '../../src/core/talk/clips/ima-adpcm.ts'
import { openEngine, type Engine } from './engine.ts'
import { filtered, highPass, highShelf } from '../../src/core/talk/clips/filter.ts'
import { openRenderer, type Renderer } from './render-clip.ts'
import { shaped } from '../../src/core/talk/clips/shape.ts'

const RATE = 16_000
let engine: Engine
let render: Renderer
beforeAll(async () => {
  engine = await openEngine()
  render = await openRenderer()
})

const level = (samples: ArrayLike<number>) =>
  Math.sqrt(Array.from(samples).reduce((sum, value) => sum + value * value, 0) / samples.length)

describe('filters', () => {
  const tone = (hertz: number) =>
    Float32Array.from({ length: RATE }, (_, index) => Math.sin((2 * Math.PI * hertz * index) / RATE))
  const gain = (hertz: number, through: Parameters<typeof filtered>[1]) =>
    20 * Math.log10(level(filtered(tone(hertz), through).slice(RATE / 2)) / level(tone(hertz)))

  // What the filters are by definition: 3 dB down at the corner and 12 dB an octave; half the lift at the middle.
  it.each([
    [250, highPass(250, RATE), -3],
    [125, highPass(250, RATE), -12.3],
    [2000, highPass(250, RATE), 0],
    [2500, highShelf(2500, 12, RATE), 6],
    [200, highShelf(2500, 12, RATE), 0],
    [7500, highShelf(2500, 12, RATE), 12]
  ])('at %d Hz', (hertz, through, decibels) => {
    expect(gain(hertz, through)).toBeCloseTo(decibels, 0)
  })
})

describe('a clip', () => {
  it('is about as long as a person takes, loud, and never cut off', async () => {
    const said = await engine('Close the draw valve, and wipe it with the blue cloth.')
    if (!said) throw new Error('nothing was said')
    const { pcm } = shaped(said)
    const words = 11
    const aMinute = words / (pcm.length / RATE / 60)
    expect(aMinute).toBeGreaterThan(130)
    expect(aMinute).toBeLessThan(230)
    expect(20 * Math.log10(level(pcm) / 32768)).toBeGreaterThan(-22)
    expect(Math.max(...pcm.map(Math.abs))).toBeLessThan(29_000)
  })

  it('is as loud as any other, within 1.5 dB', async () => {
    const levels = await Promise.all(
      ['Left.', 'Open it.', 'Rinse the hopper with two gallons of cool water.'].map(async (text) => {
        const said = await engine(text)
        const { pcm } = shaped(said ?? { rate: RATE, pcm: new Int16Array(1) })
        return 20 * Math.log10(level(Array.from(pcm).filter((value) => Math.abs(value) > 400)) / 32768)
      })
    )
    expect(Math.max(...levels) - Math.min(...levels)).toBeLessThan(1.5)
  })

  it('begins at once: no silence that would make a string of clips stutter', async () => {
    const said = await engine('Left.')
    const { pcm } = shaped(said ?? { rate: RATE, pcm: new Int16Array(0) })
    expect(pcm.findIndex((value) => Math.abs(value) > 300)).toBeLessThan(RATE * 0.06)
  })

  it('is a packed WAV file of one channel at 16 kHz', async () => {
    const clip = await render('Left.')
    const sound = unpackWav(clip?.bytes ?? new Uint8Array())
    expect(sound?.rate).toBe(RATE)
    expect(((sound?.pcm.length ?? 0) / RATE) * 1000).toBeCloseTo(clip?.ms ?? 0, -1)
    expect(clip?.ms).toBeGreaterThan(150)
  })

  it('can be made of 600 characters, and of nothing it knows', async () => {
    const long = await render(`${'Wipe it slowly and with care, and then '.repeat(15)}stop.`)
    expect(long?.ms).toBeGreaterThan(20_000)
    expect(await render('¿¡…')).toSatisfy((clip) => clip === null || typeof clip === 'object')
  })

  it('is the same each time', async () => {
    expect(await render('Right.')).toEqual(await render('Right.'))
  })
})
