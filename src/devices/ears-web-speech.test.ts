import { describe, expect, test } from 'vitest'
import { webSpeechWorld } from '../../tests/helpers/web-speech-world.ts'

describe('listening', () => {
  test('asks the engine for finals with five alternatives, in the language', () => {
    const world = webSpeechWorld()
    expect(world.kind()).toBe('off')
    world.ears.start('es')
    expect(world.kind()).toBe('starting')
    const session = world.recognisers.last()
    expect(session).toMatchObject({ lang: 'es', continuous: true, interimResults: true, maxAlternatives: 5 })
    session.fire('start')
    expect(world.kind()).toBe('listening')
    expect(world.told.map((state) => state.kind)).toEqual(['starting', 'listening'])
  })

  test('tells finals only, best first, with the moment the utterance was first noticed', () => {
    const world = webSpeechWorld()
    const session = world.listen()
    world.clock.advance(700)
    session.fire('speechstart')
    world.clock.advance(200)
    session.result('next', { final: false })
    world.clock.advance(300)
    session.result([
      [' next ', 0.8],
      ['text', 0.1],
      ['  ', 0.05]
    ])
    expect(world.heard).toEqual([
      {
        alternatives: [
          { words: 'next', confidence: 0.8 },
          { words: 'text', confidence: 0.1 }
        ],
        startedSteady: 700
      }
    ])
  })

  test('dates the second utterance of a session by its own first guess', () => {
    const world = webSpeechWorld()
    const session = world.listen()
    session.fire('speechstart')
    session.result('left')
    world.clock.advance(5000)
    session.result('done', { index: 1, final: false })
    world.clock.advance(400)
    session.result('done', { index: 1 })
    expect(world.heard.map((it) => it.startedSteady)).toEqual([0, 5000])
  })

  test('a final listed again is told once; the same words again within a second are dropped', () => {
    const world = webSpeechWorld()
    const session = world.listen()
    session.result('done')
    world.clock.advance(1500)
    session.result('done')
    expect(world.words()).toEqual(['done'])
    session.result('Done', { index: 1 })
    world.clock.advance(999)
    session.result('done', { index: 2 })
    world.clock.advance(1000)
    session.result('done', { index: 3 })
    expect(world.words()).toEqual(['done', 'Done', 'done'])
  })

  test('an engine without confidence counts as 0', () => {
    const world = webSpeechWorld()
    world.listen().result('next', { confidence: Number.NaN })
    expect(world.heard[0]?.alternatives[0]?.confidence).toBe(0)
  })

  test('goes on with a new object after the engine ends by itself', () => {
    const world = webSpeechWorld()
    const first = world.listen()
    first.end()
    world.clock.advance(299)
    expect(world.recognisers.all).toHaveLength(1)
    world.clock.advance(1)
    const second = world.recognisers.last()
    expect(second.number).toBe(2)
    second.fire('start')
    first.result('too late')
    first.error('not-allowed')
    expect(world.words()).toEqual([])
    expect(world.kind()).toBe('listening')
  })

  test('stops, and hears nothing more', () => {
    const world = webSpeechWorld()
    const session = world.listen()
    world.ears.stop()
    expect(world.kind()).toBe('off')
    expect(world.browserLocks.heldNames()).toEqual(['microphone'])
    session.result('next')
    session.end()
    expect(world.browserLocks.heldNames()).toEqual([])
    world.clock.advance(60_000)
    expect(world.words()).toEqual([])
    expect(world.recognisers.all).toHaveLength(1)
    expect(world.clock.pending()).toBe(0)
  })

  test('changes language by ending the session first', () => {
    const world = webSpeechWorld()
    const english = world.listen('en')
    world.ears.start('es')
    expect(world.recognisers.all).toHaveLength(1)
    english.end()
    expect(world.recognisers.last()).toMatchObject({ number: 2, lang: 'es' })
  })
})

describe('half duplex', () => {
  test('what began before opening is dropped; listening goes on in a new session', () => {
    const world = webSpeechWorld()
    const before = world.listen()
    before.result('nex', { final: false })
    world.gate()
    expect(world.kind()).toBe('gated')
    before.result('next')
    world.open()
    before.result('next')
    before.end()
    world.recognisers.last().fire('start')
    expect(world.words()).toEqual([])
    world.recognisers.last().result('done')
    expect(world.words()).toEqual(['done'])
  })

  test('opens a second after the abort when the engine never confirms it', () => {
    const world = webSpeechWorld()
    world.listen()
    world.gate()
    world.open()
    expect(world.kind()).toBe('starting')
    world.clock.advance(999)
    expect(world.recognisers.all).toHaveLength(1)
    world.clock.advance(1)
    expect(world.recognisers.all).toHaveLength(2)
  })

  test('starting while gated waits for open', () => {
    const world = webSpeechWorld()
    world.gate()
    world.ears.start('en')
    world.clock.advance(60_000)
    expect(world.kind()).toBe('gated')
    expect(world.recognisers.all).toHaveLength(0)
    world.open()
    expect(world.recognisers.all).toHaveLength(1)
  })

  test('gating does not shorten a backoff', () => {
    const world = webSpeechWorld()
    const session = world.listen()
    session.error('audio-capture')
    session.end()
    world.gate()
    world.clock.advance(500)
    world.open()
    expect(world.ears.state()).toEqual({ kind: 'retrying', reason: 'no-microphone', untilSteady: 1000 })
    world.clock.advance(499)
    expect(world.recognisers.all).toHaveLength(1)
    world.clock.advance(1)
    expect(world.recognisers.all).toHaveLength(2)
  })
})

describe('page and tabs', () => {
  test('hidden: aborted; visible: started again', () => {
    const world = webSpeechWorld()
    const session = world.listen()
    world.show(false)
    expect(world.kind()).toBe('off')
    session.error('not-allowed')
    session.end()
    world.clock.advance(60_000)
    expect(world.recognisers.all).toHaveLength(1)
    world.show(true)
    expect(world.kind()).toBe('starting')
    expect(world.recognisers.all).toHaveLength(2)
  })

  test('another tab has the microphone: says so, and takes over when it is free', () => {
    const world = webSpeechWorld()
    const release = world.browserLocks.tab().hold('microphone', () => {})
    world.ears.start('en')
    expect(world.kind()).toBe('starting')
    world.clock.advance(1000)
    expect(world.ears.state()).toEqual({ kind: 'deaf', reason: 'other-tab' })
    release()
    expect(world.kind()).toBe('starting')
    expect(world.recognisers.all).toHaveLength(1)
  })

  test('giving up the wait for another tab leaves nothing behind', () => {
    const world = webSpeechWorld()
    const release = world.browserLocks.tab().hold('microphone', () => {})
    world.ears.start('en')
    world.ears.stop()
    release()
    expect(world.browserLocks.heldNames()).toEqual([])
    expect(world.clock.pending()).toBe(0)
  })
})

describe('press to talk', () => {
  test('one utterance for each press, and no restart of its own', () => {
    const world = webSpeechWorld({ manner: 'press-to-talk' })
    const session = world.listen()
    expect(session).toMatchObject({ continuous: false, interimResults: false })
    session.result('next')
    session.end()
    expect(world.words()).toEqual(['next'])
    expect(world.kind()).toBe('off')
    world.clock.advance(60_000)
    expect(world.recognisers.all).toHaveLength(1)
    world.listen().error('no-speech')
    expect(world.kind()).toBe('off')
    world.clock.advance(60_000)
    expect(world.recognisers.all).toHaveLength(2)
  })

  test('a growing utterance said to be final again and again is told once, whole', () => {
    const world = webSpeechWorld({ manner: 'press-to-talk' })
    const session = world.listen()
    world.clock.advance(100)
    session.result('close', { confidence: 0 })
    world.clock.advance(400)
    session.result('close the', { confidence: 0 })
    world.clock.advance(400)
    session.result('close the valve', { confidence: 0.9 })
    world.clock.advance(100)
    session.result('close the valve', { confidence: 0.9 })
    expect(world.words()).toEqual([])
    world.clock.advance(250)
    session.end()
    expect(world.words()).toEqual(['close the valve'])
    expect(world.heard[0]?.startedSteady).toBe(100)
  })

  test('guesses alone count when the session ends well, and not when it fails', () => {
    const world = webSpeechWorld({ manner: 'press-to-talk' })
    const first = world.listen()
    first.result('repeat', { confidence: 0 })
    first.end()
    expect(world.words()).toEqual(['repeat'])
    world.clock.advance(5000)
    const second = world.listen()
    second.result('do', { confidence: 0 })
    world.clock.advance(2000)
    second.error('network')
    second.end()
    expect(world.words()).toEqual(['repeat'])
  })

  test('a press that the app spoke over is taken up again when it opens', () => {
    const world = webSpeechWorld({ manner: 'press-to-talk' })
    const session = world.listen()
    world.gate()
    session.end()
    world.open()
    expect(world.recognisers.all).toHaveLength(2)
    expect(world.kind()).toBe('starting')
  })
})
