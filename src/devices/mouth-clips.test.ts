import { expect, test } from 'vitest'
import { fakeAudio } from '../../tests/helpers/fake-audio-context.ts'
import { fakeClock, promisesRun } from '../../tests/helpers/fake-clock.ts'
import { fakeMouth } from '../../tests/helpers/fake-mouth.ts'
import { coverWithClips, knownClips } from '../core/talk/clips/cover.ts'
import type { Sound } from '../core/talk/clips/ima-adpcm.ts'
import type { Spoken } from '../ports/mouth.ts'
import { audioOutput } from './audio-output.ts'
import { clipMouth } from './mouth-clips.ts'

const sound = (seconds: number): Sound => ({ rate: 16_000, pcm: new Int16Array(16_000 * seconds).fill(9000) })

interface Given {
  readonly unlocked?: boolean
  readonly language?: string | null
}

async function world({ unlocked = true, language = 'en' }: Given = {}) {
  const clock = fakeClock()
  const audio = fakeAudio(clock)
  const output = audioOutput({ makeContext: audio.make, clock, audioSession: null })
  const next = fakeMouth()
  const engineAsked: string[] = []
  const known = knownClips([
    ['Left.', sound(0.4)],
    ['Close it.', sound(1)]
  ])
  const mouth = clipMouth({
    output,
    clips: {
      isEmpty: () => language === null,
      saying: (text, asked) => (asked === language ? coverWithClips(text, known) : null),
      onState: () => () => {}
    },
    next,
    engine: async (text) => {
      engineAsked.push(text)
      return text.includes('Ben') ? sound(0.5) : null
    },
    clock
  })
  if (unlocked) {
    output.unlock()
    await promisesRun()
  }
  const said: Spoken[] = []
  return {
    clock,
    audio,
    next,
    mouth,
    said,
    engineAsked,
    say(text: string, inLanguage = 'en') {
      void mouth.say(text, inLanguage).then((spoken) => said.push(spoken))
      return promisesRun()
    }
  }
}

test('plays the clips one after the other, and is done at the real end', async () => {
  const it = await world()
  await it.say('Left. Close it.')
  expect(it.audio.last().playing()).toBe(false)
  await it.clock.pass(50)
  expect(it.audio.last().playing()).toBe(true)
  // 0.4 s, a pause of 0.3 s, and 1 s.
  await it.clock.pass(1600)
  expect(it.said).toEqual([])
  await it.clock.pass(100)
  expect(it.said).toEqual([{ kind: 'said' }])
  expect(it.next.said).toEqual([])
})

test('leaves what it has no clip for to the next mouth, as a whole', async () => {
  const it = await world()
  await it.say('Left. Ada carries on.')
  expect(it.next.now()).toBe('Left. Ada carries on.')
  it.next.finish()
  await promisesRun()
  expect(it.said).toEqual([{ kind: 'said' }])
})

test.each([
  ['another language', { language: 'en' }, 'es'],
  ['nothing fetched yet', { language: null }, 'en'],
  ['sound that waits for a tap', { unlocked: false }, 'en']
])('leaves %s to the next mouth', async (_, given, language) => {
  const it = await world(given)
  await it.say('Left.', language)
  expect(it.next.now()).toBe('Left.')
})

test('stops at once, and what was waiting is not said', async () => {
  const it = await world()
  await it.say('Close it.')
  await it.say('Left.')
  await it.clock.pass(300)
  it.mouth.stop()
  await promisesRun()
  expect(it.said).toEqual([{ kind: 'stopped' }, { kind: 'stopped' }])
  await it.clock.pass(50)
  expect(it.audio.last().playing()).toBe(false)
})

test('a sound that never ends is given up, and the next mouth says it', async () => {
  const it = await world()
  await it.say('Close it.')
  it.audio.last().freeze()
  await it.clock.pass(1000 + 300 + 1500 + 100)
  await promisesRun()
  expect(it.next.now()).toBe('Close it.')
})

test('two texts do not run into each other', async () => {
  const it = await world()
  await it.say('Left.')
  await it.say('Close it.')
  await it.clock.pass(500)
  expect(it.said).toEqual([{ kind: 'said' }])
  expect(it.audio.last().playing()).toBe(false)
  await it.clock.pass(300)
  expect(it.audio.last().playing()).toBe(true)
})

test('where the next mouth cannot be heard the engine says it', async () => {
  const it = await world()
  await it.say('Ben carries on.')
  it.next.fail('no-voice')
  await it.clock.pass(100)
  expect(it.engineAsked).toEqual(['Ben carries on.'])
  expect(it.audio.last().playing()).toBe(true)
  await it.clock.pass(600)
  expect(it.said).toEqual([{ kind: 'said' }])
})

test('what was stopped while the engine worked is not said', async () => {
  const it = await world()
  await it.say('Ben carries on.')
  it.next.fail('no-voice')
  it.mouth.stop()
  await it.clock.pass(600)
  expect(it.said).toEqual([{ kind: 'stopped' }])
  expect(it.audio.last().playing()).toBe(false)
})

test('where nobody can say it, two notes tell that there is something to read', async () => {
  const it = await world()
  await it.say('Ada carries on.')
  it.next.fail('no-voice')
  await it.clock.pass(60)
  expect(it.said).toEqual([{ kind: 'failed', reason: 'no-voice' }])
  expect(it.audio.last().audible()).not.toEqual([])
})

test('is ready when either can be heard, and mute with the reason when neither can', async () => {
  const it = await world({ unlocked: false })
  expect(it.mouth.state()).toEqual({ kind: 'ready' })
  it.next.become({ kind: 'mute', reason: 'no-voice' })
  expect(it.mouth.state()).toEqual({ kind: 'mute', reason: 'needs-tap' })
  const other = await world()
  other.next.become({ kind: 'mute', reason: 'no-voice' })
  expect(other.mouth.state()).toEqual({ kind: 'ready' })
})
