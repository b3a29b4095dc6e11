import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fakeClock, promisesRun } from '../../tests/helpers/fake-clock.ts'
import { ENGLISH, fakeSynthesizer, type FakeVoice } from '../../tests/helpers/fake-synthesizer.ts'
import type { MouthState, Spoken } from '../ports/mouth.ts'
import { speechSynthesisMouth } from './mouth-speech-synthesis.ts'

function world({ voices = [ENGLISH], rate = 1 }: { voices?: readonly FakeVoice[]; rate?: number } = {}) {
  const clock = fakeClock()
  const synthesizer = fakeSynthesizer(voices)
  const mouth = speechSynthesisMouth({ synthesizer, makeUtterance: synthesizer.makeUtterance, clock, rate })
  const states: MouthState[] = []
  mouth.onState((state) => states.push(state))
  return {
    clock,
    synthesizer,
    mouth,
    states,
    /** Begins to say; the outcome is filled in when it comes. */
    async say(text: string, language = 'en') {
      const said: { outcome: Spoken | null } = { outcome: null }
      void mouth.say(text, language).then((outcome) => (said.outcome = outcome))
      await promisesRun()
      return said
    }
  }
}

const LONG =
  'Take the left gasket out of its groove now. Turn it over, wash it and look at it closely. Then lay it flat on the clean towel.'

describe('saying', () => {
  test('resolves at the real end', async () => {
    const it = world()
    const said = await it.say('Left. Close the draw valve.')
    expect(it.synthesizer.last()).toMatchObject({
      text: 'Left. Close the draw valve.',
      lang: 'en-US',
      voice: ENGLISH,
      rate: 1
    })
    expect(said.outcome).toBe(null)
    it.synthesizer.end()
    await promisesRun()
    expect(said.outcome).toEqual({ kind: 'said' })
    expect(it.mouth.state()).toEqual({ kind: 'ready' })
    expect(it.clock.pending()).toBe(0)
  })

  test('says a long text in pieces, one at a time', async () => {
    const it = world()
    const said = await it.say(LONG)
    expect(it.synthesizer.spoken).toHaveLength(1)
    it.synthesizer.end()
    await promisesRun()
    expect(it.synthesizer.spoken).toHaveLength(2)
    expect(it.synthesizer.spoken.join(' ')).toBe(LONG)
    it.synthesizer.end()
    await promisesRun()
    expect(said.outcome).toEqual({ kind: 'said' })
  })

  test('a second text waits for the first', async () => {
    const it = world()
    await it.say('One.')
    const second = await it.say('Two.')
    expect(it.synthesizer.spoken).toEqual(['One.'])
    it.synthesizer.end()
    await promisesRun()
    expect(it.synthesizer.spoken).toEqual(['One.', 'Two.'])
    it.synthesizer.end()
    await promisesRun()
    expect(second.outcome).toEqual({ kind: 'said' })
  })

  test('an empty text is said at once', async () => {
    const said = await world().say(' ')
    expect(said.outcome).toEqual({ kind: 'said' })
  })

  test('waits for voices that come late', async () => {
    const it = world({ voices: [] })
    const said = await it.say('One.')
    await it.clock.pass(3000)
    expect(it.synthesizer.spoken).toEqual([])
    it.synthesizer.setVoices([ENGLISH])
    await promisesRun()
    it.synthesizer.end()
    await promisesRun()
    expect(said.outcome).toEqual({ kind: 'said' })
  })
})

describe('stopping', () => {
  test('resolves the present and the waiting texts as stopped, at once', async () => {
    const it = world()
    const first = await it.say(LONG)
    const second = await it.say('Two.')
    it.mouth.stop()
    await promisesRun()
    expect([first.outcome, second.outcome]).toEqual([{ kind: 'stopped' }, { kind: 'stopped' }])
    expect(it.synthesizer.spoken).toHaveLength(1)
    expect(it.synthesizer.cancels).toBe(1)
  })

  test('the next text waits until the browser has let go of the last', async () => {
    const it = world()
    it.synthesizer.cancelling = 'says-nothing'
    await it.say('One.')
    it.mouth.stop()
    await it.say('Two.')
    await it.clock.pass(199)
    expect(it.synthesizer.spoken).toEqual(['One.'])
    await it.clock.pass(1)
    expect(it.synthesizer.spoken).toEqual(['One.', 'Two.'])
  })

  test('does not make the next text wait when the browser answers', async () => {
    const it = world()
    await it.say('One.')
    it.mouth.stop()
    await it.say('Two.')
    expect(it.synthesizer.spoken).toEqual(['One.', 'Two.'])
  })

  test('stops while still waiting for voices or for the browser', async () => {
    const it = world({ voices: [] })
    const said = await it.say('One.')
    it.mouth.stop()
    await promisesRun()
    expect(said.outcome).toEqual({ kind: 'stopped' })

    const other = world()
    other.synthesizer.cancelling = 'says-nothing'
    await other.say('One.')
    other.mouth.stop()
    const waiting = await other.say('Two.')
    other.mouth.stop()
    await promisesRun()
    expect(waiting.outcome).toEqual({ kind: 'stopped' })
  })

  test('stopping nothing does nothing', async () => {
    const it = world()
    it.mouth.stop()
    expect(it.synthesizer.cancels).toBe(0)
    await it.say('One.')
    expect(it.synthesizer.spoken).toEqual(['One.'])
  })
})

describe('failing', () => {
  test('an end that never comes: gives up at twice the expected time and two seconds', async () => {
    const it = world()
    const said = await it.say('Ten chars.')
    await it.clock.pass(10 * 80 * 2 + 2000 - 1)
    expect(said.outcome).toBe(null)
    await it.clock.pass(1)
    expect(said.outcome).toEqual({ kind: 'failed', reason: 'not-answering' })
    expect(it.synthesizer.cancels).toBe(1)
    expect(it.mouth.state()).toEqual({ kind: 'mute', reason: 'not-answering' })
  })

  test('a slower voice is given more time', async () => {
    const it = world({ rate: 0.5 })
    const said = await it.say('Ten chars.')
    await it.clock.pass(5199)
    expect(said.outcome).toBe(null)
    await it.clock.pass(1)
    expect(said.outcome).toMatchObject({ kind: 'failed' })
  })

  test('an engine that stays stuck is cancelled again before each next text', async () => {
    const it = world()
    it.synthesizer.cancelling = 'stays-stuck'
    await it.say('One.')
    await it.clock.pass(10_000)
    await it.say('Two.')
    expect(it.synthesizer.spoken).toEqual(['One.'])
    await it.clock.pass(200)
    expect(it.synthesizer.cancels).toBe(2)
    expect(it.synthesizer.spoken).toEqual(['One.', 'Two.'])
    it.synthesizer.end()
    await promisesRun()
    expect(it.mouth.state()).toEqual({ kind: 'ready' })
  })

  test.each([
    ['not-allowed', 'needs-tap'],
    ['synthesis-failed', 'engine-failed'],
    ['interrupted', 'engine-failed'],
    ['voice-unavailable', 'no-voice']
  ] as const)('%s is mute with %s, and the rest of the text is not tried', async (code, reason) => {
    const it = world()
    const said = await it.say(LONG)
    it.synthesizer.error(code)
    await promisesRun()
    expect(said.outcome).toEqual({ kind: 'failed', reason })
    expect(it.mouth.state()).toEqual({ kind: 'mute', reason })
    expect(it.synthesizer.spoken).toHaveLength(1)
  })

  test('no voice within 5 s: mute, and later texts fail at once', async () => {
    const it = world({ voices: [] })
    const said = await it.say('One.')
    await it.clock.pass(5000)
    expect(said.outcome).toEqual({ kind: 'failed', reason: 'no-voice' })
    expect(it.mouth.state()).toEqual({ kind: 'mute', reason: 'no-voice' })
    expect((await it.say('Two.')).outcome).toEqual({ kind: 'failed', reason: 'no-voice' })
  })

  test('no voice of the language is a failure too', async () => {
    expect((await world().say('Cierre la llave.', 'es')).outcome).toEqual({ kind: 'failed', reason: 'no-voice' })
  })

  test('a browser that throws', async () => {
    const it = world()
    it.synthesizer.throwNext()
    expect((await it.say('One.')).outcome).toEqual({ kind: 'failed', reason: 'engine-failed' })
    expect(it.clock.pending()).toBe(0)
  })

  test('a browser without a synthesizer', async () => {
    const { makeUtterance } = fakeSynthesizer()
    const mouth = speechSynthesisMouth({ synthesizer: null, makeUtterance, clock: fakeClock(), rate: 1 })
    expect(await mouth.say('One.', 'en')).toEqual({ kind: 'failed', reason: 'unsupported' })
    expect(mouth.state()).toEqual({ kind: 'mute', reason: 'unsupported' })
  })
})

describe('unlocking', () => {
  test('needs a tap until then; speaks something empty and silent', () => {
    const it = world()
    expect(it.mouth.state()).toEqual({ kind: 'mute', reason: 'needs-tap' })
    it.mouth.unlock()
    expect(it.synthesizer.last()).toMatchObject({ text: '', volume: 0 })
    expect(it.states).toEqual([{ kind: 'ready' }])
  })

  test('a text right after it does not wait for an end that never comes', async () => {
    const it = world()
    it.synthesizer.cancelling = 'says-nothing'
    it.mouth.unlock()
    await it.say('One.')
    await it.clock.pass(200)
    expect(it.synthesizer.spoken).toEqual(['', 'One.'])
  })

  test('an unlocking outside a tap is refused, and says so', () => {
    const it = world()
    it.mouth.unlock()
    it.synthesizer.error('not-allowed')
    expect(it.mouth.state()).toEqual({ kind: 'mute', reason: 'needs-tap' })
    it.mouth.unlock()
    expect(it.mouth.state()).toEqual({ kind: 'ready' })
  })

  test('does not talk over a text', async () => {
    const it = world()
    await it.say('One.')
    it.mouth.unlock()
    expect(it.synthesizer.spoken).toEqual(['One.'])
  })
})

test('whatever the engine does, every text gets its one outcome, and nothing overlaps', async () => {
  const move = fc.constantFrom(
    'say',
    'say-long',
    'stop',
    'end',
    'error',
    'unlock',
    'wait',
    'no-voices',
    'voices',
    'throw',
    'answers',
    'says-nothing',
    'stays-stuck'
  )
  await fc.assert(
    fc.asyncProperty(fc.array(move, { maxLength: 25 }), async (moves) => {
      const it = world()
      const all: { outcome: Spoken | null }[] = []
      for (const one of moves) {
        if (one === 'say') all.push(await it.say('One.'))
        else if (one === 'say-long') all.push(await it.say(LONG))
        else if (one === 'stop') it.mouth.stop()
        else if (one === 'unlock') it.mouth.unlock()
        else if (one === 'wait') await it.clock.pass(150)
        else if (one === 'voices') it.synthesizer.setVoices([ENGLISH])
        else if (one === 'no-voices') it.synthesizer.setVoices([])
        else if (one === 'throw') it.synthesizer.throwNext()
        else if (one === 'answers' || one === 'says-nothing' || one === 'stays-stuck') it.synthesizer.cancelling = one
        else if (one === 'end' && it.synthesizer.voiced) it.synthesizer.end()
        else if (one === 'error' && it.synthesizer.voiced) it.synthesizer.error('synthesis-failed')
        await promisesRun()
      }
      // Long enough for every watchdog of every piece of every text.
      await it.clock.pass(all.length * 2 * 30_000 + 10_000)
      expect(all.filter((said) => said.outcome === null)).toEqual([])
      expect(it.clock.pending()).toBe(0)
    }),
    { numRuns: 1000 }
  )
})
