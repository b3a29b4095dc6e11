/** The worker's work with the real models: practise by voice, then be heard. */
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { VOICE_SAMPLES } from '../../src/core/ears/sound.ts'
import type { Takes } from '../../src/core/ears/phrasebook.ts'
import { desk } from '../../src/devices/ears-embedded/desk.ts'
import type { FromDesk, ToDesk } from '../../src/devices/ears-embedded/desk-messages.ts'
import { onnxModels } from '../../src/devices/ears-embedded/models-onnx.ts'
import { readEarFiles } from './ear-models.ts'
import { quietRoom } from './ear-models.ts'
import { readLabelled, type Labelled } from './labelled.ts'

let enrol: readonly Labelled[]
let spoken: readonly Labelled[]
beforeAll(async () => {
  enrol = await readLabelled(join(import.meta.dirname, 'clips/enrol'))
  spoken = await readLabelled(join(import.meta.dirname, 'clips/spoken'))
})

/** Each clip behind a second and a half of a quiet room, and one more. */
function streamOf(clips: readonly Labelled[]): Float32Array {
  const gap = 24_000
  const stream = quietRoom(
    clips.reduce((sum, { samples }) => sum + samples.length + gap, gap),
    1
  )
  let at = gap
  for (const { samples } of clips) {
    samples.forEach((value, k) => (stream[at + k] = (stream[at + k] ?? 0) + 0.5 * value))
    at += samples.length + gap
  }
  return stream
}

test('practised takes are heard, only valid words count, and the rest is unknown', async () => {
  const told: FromDesk[] = []
  let waiting: (() => void) | null = null
  const at = desk(onnxModels, (message) => {
    told.push(message)
    waiting?.()
  })
  const until = async (isThere: () => boolean) => {
    while (!isThere()) await new Promise<void>((next) => (waiting = next))
  }
  const play = async (samples: Float32Array) => {
    const before = told.filter(({ kind }) => kind === 'level').length
    let portions = 0
    for (let from = 0; from < samples.length; from += VOICE_SAMPLES, portions++)
      at.take({ kind: 'samples', samples: samples.slice(from, from + VOICE_SAMPLES) } satisfies ToDesk)
    // A portion's findings follow its level.
    at.take({ kind: 'samples', samples: new Float32Array(1) })
    await until(() => told.filter(({ kind }) => kind === 'level').length > before + portions)
  }
  at.take({ kind: 'prepare', files: readEarFiles() })

  const takes: Takes[] = []
  for (const words of ['all done', 'say again', 'carry on']) {
    const first = told.length
    at.take({ kind: 'begin', practising: words })
    await play(streamOf(enrol.filter(({ label }) => label === words)))
    const heard = told.slice(first).flatMap((message) => (message.kind === 'take' ? [message] : []))
    expect(heard.map(({ take }) => take.fault)).toEqual([null, null, null])
    takes.push({ words, takes: heard.map(({ take }) => take.utterance) })
  }

  at.take({ kind: 'practised', takes })
  at.take({ kind: 'listen-for', words: ['all done', 'say again'], speaker: 'anybody' })
  at.take({ kind: 'begin', practising: null })
  const first = told.length
  await play(streamOf(spoken))
  const found = told
    .slice(first)
    .flatMap((message) => (message.kind === 'found' ? [[message.how, message.candidates[0]?.words ?? '']] : []))
  expect(found.filter(([how]) => how === 'sure').map(([, words]) => words)).toEqual(['all done', 'say again'])
  expect(found).toHaveLength(3)
  expect(told.filter(({ kind }) => kind === 'broken')).toEqual([])
}, 120_000)
