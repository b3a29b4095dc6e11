/** Tones stand for words: what is tested is which stretch of sound is judged. */
import { expect, test } from 'vitest'
import { normal, seeded } from '../../../tests/helpers/seeded.ts'
import { listener, type Speaker } from './listener.ts'
import { melFrames } from './mel-stream.ts'
import type { EarModels } from './models.ts'
import { middleSketch, type Phrase } from './phrasebook.ts'
import { BANDS, EMBEDDING_SIZE, SAMPLE_RATE, WINDOW_FRAMES, WINDOW_STEP } from './sound.ts'
import { clipOf } from './utterance.ts'

/** A voice wherever it is loud; an embedding that is the window's own bands, in three parts. */
const models: EarModels = {
  voice: (samples) => Promise.resolve(samples.some((value) => Math.abs(value) > 0.01) ? 1 : 0),
  forgetVoice() {},
  embed(frames) {
    const windows = Math.floor((frames.length / BANDS - WINDOW_FRAMES) / WINDOW_STEP) + 1
    const part = Math.floor(WINDOW_FRAMES / 3)
    return Promise.resolve(
      Float32Array.from({ length: windows * EMBEDDING_SIZE }, (_, at) => {
        const first = Math.floor(at / EMBEDDING_SIZE) * WINDOW_STEP + Math.floor((at % EMBEDDING_SIZE) / BANDS) * part
        let sum = 0
        for (let frame = first; frame < first + part; frame++) sum += frames[frame * BANDS + (at % BANDS)] ?? 0
        return sum / part
      })
    )
  }
}

const chance = seeded(5)
const pause = (ms: number) => Float32Array.from({ length: (SAMPLE_RATE * ms) / 1000 }, () => 0.0003 * normal(chance))
const tone = (hz: readonly number[], ms: number, loud = 0.3) =>
  pause(ms).map((quiet, at) => {
    const turns = (2 * Math.PI * at) / SAMPLE_RATE
    return quiet + loud * hz.reduce((sum, one) => sum + Math.sin(one * turns), 0)
  })
const FIRST = [300, 700, 1200]
const SECOND = [1800, 2500, 3200]
const OTHERS = [500, 1000, 2100, 2900]
const joinedUp = (...parts: readonly Float32Array[]) => Float32Array.from(parts.flatMap((part) => [...part]))

/** As it sounds with no noise around it; alike enough only where nearly the same. */
async function phraseOfTones(stopMs: number): Promise<Phrase> {
  const speech = melFrames(joinedUp(tone(FIRST, 350), pause(stopMs), tone(SECOND, 350)))
  const room = melFrames(pause(400))
  const sketch = middleSketch(await models.embed(clipOf({ speech, room })))
  return {
    words: 'both tones',
    sketches: [sketch, sketch],
    frames: speech.length / BANDS,
    others: { mean: 0, spread: 0.2 }
  }
}

async function heardIn(phrase: Phrase, ...parts: readonly Float32Array[]): Promise<readonly string[]> {
  const ears = listener(models)
  ears.listenFor([phrase], 'anybody')
  const findings = await ears.push(joinedUp(pause(3000), ...parts, pause(1500)))
  return findings.filter(({ kind }) => kind === 'sure').map(({ candidates }) => candidates[0]?.words ?? '')
}

test('a phrase that a silent stop breaks in two is heard', async () => {
  const phrase = await phraseOfTones(260)
  expect(await heardIn(phrase, tone(FIRST, 350), pause(260), tone(SECOND, 350))).toEqual(['both tones'])
})

test('two sounds that are farther apart are no phrase', async () => {
  const phrase = await phraseOfTones(260)
  expect(await heardIn(phrase, tone(FIRST, 350), pause(500), tone(SECOND, 350))).toEqual([])
})

test('a phrase that somebody near says into the talk of others is heard', async () => {
  const phrase = await phraseOfTones(0)
  const spoken = [tone(FIRST, 350), tone(SECOND, 350)]
  expect(await heardIn(phrase, ...spoken)).toEqual(['both tones'])
  expect(await heardIn(phrase, tone(OTHERS, 900, 0.04), ...spoken)).toEqual(['both tones'])
})

test('a phrase at the end of talk that is as loud is none', async () => {
  const phrase = await phraseOfTones(0)
  expect(await heardIn(phrase, tone(OTHERS, 900), tone(FIRST, 350), tone(SECOND, 350))).toEqual([])
})

/** So near the phrase and no nearer: a question where nobody has called. */
const hardly = (phrase: Phrase): Phrase => ({ ...phrase, words: 'hardly alike', others: { mean: 0, spread: 0.33 } })

async function heardAfterCall(loud: number): Promise<readonly string[]> {
  const phrase = await phraseOfTones(0)
  const ears = listener(models)
  const found: string[] = []
  const push = async (samples: Float32Array) => {
    for (const { kind, candidates } of await ears.push(samples)) found.push(`${kind}: ${candidates[0]?.words}`)
  }
  const said = (as: number) => joinedUp(tone(FIRST, 350, as), tone(SECOND, 350, as), pause(3000))
  ears.listenFor([phrase], 'anybody')
  await push(joinedUp(pause(3000), said(0.3)))
  ears.listenFor([hardly(phrase)], 'caller')
  await push(said(loud))
  return found
}

test('the attention word takes less certainty than a command, and makes its speaker the caller', async () => {
  const phrase = hardly(await phraseOfTones(0))
  const said = joinedUp(tone(FIRST, 350), tone(SECOND, 350), pause(3000))
  const kindsOf = async (speaker: Speaker) => {
    const ears = listener(models)
    ears.listenFor([phrase], speaker)
    const first = await ears.push(joinedUp(pause(3000), said))
    ears.listenFor([phrase], 'caller')
    return [...first, ...(await ears.push(said))].map(({ kind }) => kind)
  }
  expect(await kindsOf('whoever-calls')).toEqual(['sure', 'sure'])
  expect(await kindsOf('anybody')).toEqual(['unsure', 'unsure'])
})

test('whoever has just been heard is heard with less certainty', async () => {
  expect(await heardAfterCall(0.3)).toEqual(['sure: both tones', 'sure: hardly alike'])
  expect(await heardAfterCall(0.19)).toEqual(['sure: both tones', 'sure: hardly alike'])
})

test('somebody farther away than who called has to be as certain as ever', async () => {
  expect(await heardAfterCall(0.14)).toEqual(['sure: both tones', 'unsure: hardly alike'])
})

test('before anybody was heard nobody is the caller', async () => {
  const phrase = hardly(await phraseOfTones(0))
  const ears = listener(models)
  ears.listenFor([phrase], 'caller')
  const found = await ears.push(joinedUp(pause(3000), tone(FIRST, 350), tone(SECOND, 350), pause(1500)))
  expect(found.map(({ kind }) => kind)).toEqual(['unsure'])
})
