import { describe, expect, test } from 'vitest'
import { webSpeechWorld } from '../../tests/helpers/web-speech-world.ts'

describe('failures', () => {
  test('an error without an end: the next start comes after a second', () => {
    const world = webSpeechWorld()
    world.listen().error('no-speech')
    world.clock.advance(999)
    expect(world.recognisers.all).toHaveLength(1)
    world.clock.advance(1)
    expect(world.recognisers.all).toHaveLength(2)
  })

  test('the end of a session that was given up does not touch the next one', () => {
    const world = webSpeechWorld()
    const first = world.listen()
    first.error('no-speech')
    world.clock.advance(1000)
    world.recognisers.last().fire('start')
    first.end()
    expect(world.kind()).toBe('listening')
    world.clock.advance(1000)
    expect(world.recognisers.all).toHaveLength(2)
  })

  test('stopping during a retry leaves no timer', () => {
    const world = webSpeechWorld()
    const session = world.listen()
    session.error('audio-capture')
    session.end()
    world.ears.stop()
    expect(world.clock.pending()).toBe(0)
  })

  test('the same error twice counts once', () => {
    const world = webSpeechWorld()
    const session = world.listen()
    session.error('audio-capture')
    session.error('audio-capture')
    session.end()
    expect(world.ears.state()).toEqual({ kind: 'retrying', reason: 'no-microphone', untilSteady: 1000 })
  })

  test('denied: never again by itself, only when the operator asks or the permission changes', () => {
    const world = webSpeechWorld()
    world.ears.start('en')
    world.recognisers.last().error('not-allowed')
    world.recognisers.last().end()
    expect(world.ears.state()).toEqual({ kind: 'deaf', reason: 'denied' })
    world.clock.advance(600_000)
    world.show(false)
    world.show(true)
    world.network(true)
    world.gate()
    world.open()
    world.ears.start('es')
    world.ears.stop()
    world.ears.start('en')
    world.clock.advance(600_000)
    expect(world.recognisers.all).toHaveLength(1)
    world.ears.tryAgain()
    expect(world.recognisers.all).toHaveLength(2)
    world.recognisers.last().error('not-allowed')
    world.recognisers.last().end()
    world.permission.set('denied')
    expect(world.recognisers.all).toHaveLength(2)
    world.permission.set('granted')
    expect(world.recognisers.all).toHaveLength(3)
  })

  test('no engine behind the object: deaf, remembered, and given one more chance on request', () => {
    const world = webSpeechWorld()
    const session = world.listen()
    world.clock.advance(14)
    session.error('network')
    expect(world.ears.state()).toEqual({ kind: 'deaf', reason: 'no-engine' })
    expect(world.engineAbsent()).toBe(true)
    session.end()
    world.ears.tryAgain()
    expect(world.engineAbsent()).toBe(false)
    world.recognisers.last().fire('start')
    expect(world.kind()).toBe('listening')
  })

  test('a remembered absence is not tried at all', () => {
    const world = webSpeechWorld({ engineAbsent: true })
    world.ears.start('en')
    expect(world.ears.state()).toEqual({ kind: 'deaf', reason: 'no-engine' })
    world.clock.advance(600_000)
    expect(world.recognisers.all).toHaveLength(0)
    world.ears.tryAgain()
    expect(world.recognisers.all).toHaveLength(1)
  })

  test('offline: waits, and wakes when the network is back', () => {
    const world = webSpeechWorld()
    let session = world.listen()
    world.network(false)
    for (let tries = 0; tries < 6; tries++) {
      if (tries > 0) session = world.untilRetry()
      session.error('network')
      session.end()
    }
    expect(world.ears.state()).toEqual({
      kind: 'retrying',
      reason: 'no-engine',
      untilSteady: world.clock.steady() + 32_000
    })
    const before = world.recognisers.all.length
    world.deviceChange()
    world.clock.advance(300)
    expect(world.recognisers.all).toHaveLength(before)
    world.network(true)
    world.clock.advance(300)
    expect(world.recognisers.all).toHaveLength(before + 1)
  })

  test('a microphone plugged in ends the waiting for one', () => {
    const world = webSpeechWorld()
    let session = world.listen()
    for (let tries = 0; tries < 6; tries++) {
      if (tries > 0) session = world.untilRetry()
      session.error('audio-capture')
      session.end()
    }
    const before = world.recognisers.all.length
    world.deviceChange()
    world.clock.advance(300)
    expect(world.recognisers.all).toHaveLength(before + 1)
  })

  test('a missing regional language falls back to the plain one, then is missing', () => {
    const world = webSpeechWorld()
    world.ears.start('es-MX')
    world.recognisers.last().error('language-not-supported')
    world.clock.advance(1000)
    expect(world.recognisers.last()).toMatchObject({ number: 2, lang: 'es' })
    world.recognisers.last().error('language-not-supported')
    expect(world.ears.state()).toEqual({ kind: 'deaf', reason: 'language-missing' })
    world.clock.advance(60_000)
    world.ears.start('en')
    expect(world.recognisers.last()).toMatchObject({ number: 3, lang: 'en' })
  })

  test('a start that throws is tried again, and forbidden ones are a denial', () => {
    const world = webSpeechWorld()
    world.recognisers.refuseNext('InvalidStateError')
    world.ears.start('en')
    expect(world.ears.state()).toEqual({ kind: 'retrying', reason: 'not-answering', untilSteady: 1000 })
    world.recognisers.refuseNext('NotAllowedError')
    world.clock.advance(1000)
    expect(world.ears.state()).toEqual({ kind: 'deaf', reason: 'denied' })
  })

  test('no recogniser: deaf from the beginning', () => {
    const world = webSpeechWorld({ noRecogniser: true })
    expect(world.ears.state()).toEqual({ kind: 'deaf', reason: 'unsupported' })
    world.ears.start('en')
    world.ears.tryAgain()
    expect(world.ears.state()).toEqual({ kind: 'deaf', reason: 'unsupported' })
    expect(world.clock.pending()).toBe(0)
  })

  test('a listener that throws does not stop the ears', async () => {
    const world = webSpeechWorld()
    const faults: unknown[] = []
    const catchFault = (fault: unknown) => faults.push(fault)
    const others = process.listeners('uncaughtException')
    process.removeAllListeners('uncaughtException')
    process.once('uncaughtException', catchFault)
    world.ears.onHeard(() => {
      throw new Error('a fault in the app')
    })
    const session = world.listen()
    session.result('next')
    await new Promise((resolve) => setImmediate(resolve))
    for (const other of others) process.on('uncaughtException', other)
    expect(faults).toEqual([new Error('a fault in the app')])
    session.end()
    world.clock.advance(300)
    expect(world.recognisers.all).toHaveLength(2)
  })
})

describe('watchdogs', () => {
  test('no start within 2.5 s, twice: deaf', () => {
    const world = webSpeechWorld()
    world.ears.start('en')
    world.clock.advance(2499)
    expect(world.kind()).toBe('starting')
    world.clock.advance(1)
    expect(world.ears.state()).toEqual({ kind: 'retrying', reason: 'not-answering', untilSteady: 3500 })
    world.clock.advance(1000)
    expect(world.recognisers.all).toHaveLength(2)
    world.clock.advance(2500)
    expect(world.ears.state()).toEqual({ kind: 'deaf', reason: 'not-answering' })
    world.clock.advance(60_000)
    expect(world.clock.pending()).toBe(0)
  })

  test('while the browser asks for the microphone there is time to answer', () => {
    const world = webSpeechWorld({ permission: 'prompt' })
    world.ears.start('en')
    world.clock.advance(19_999)
    expect(world.kind()).toBe('starting')
    world.recognisers.last().fire('start')
    expect(world.kind()).toBe('listening')
  })

  test('20 s without any event, twice without a sound between: deaf', () => {
    const world = webSpeechWorld()
    const first = world.listen()
    world.clock.advance(15_000)
    first.fire('audioend')
    world.clock.advance(19_999)
    expect(world.kind()).toBe('listening')
    world.clock.advance(1)
    expect(world.kind()).toBe('retrying')
    world.clock.advance(1000)
    world.recognisers.last().fire('start')
    world.clock.advance(20_000)
    expect(world.ears.state()).toEqual({ kind: 'deaf', reason: 'not-answering' })
  })

  test('a sound between two silences shows that it works', () => {
    const world = webSpeechWorld()
    world.listen()
    for (let silences = 0; silences < 5; silences++) {
      world.clock.advance(20_000)
      const session = world.untilRetry()
      session.fire('start')
      session.fire('soundstart')
      expect(world.kind()).toBe('listening')
    }
  })

  test('a silent engine is asked again when the page comes back to the front', () => {
    const world = webSpeechWorld()
    world.ears.start('en')
    world.clock.advance(10_000)
    expect(world.kind()).toBe('deaf')
    world.show(false)
    world.show(true)
    expect(world.kind()).toBe('starting')
  })
})
