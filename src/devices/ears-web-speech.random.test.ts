import fc from 'fast-check'
import { expect, test } from 'vitest'
import { webSpeechWorld } from '../../tests/helpers/web-speech-world.ts'

type World = ReturnType<typeof webSpeechWorld>
type Move = (world: World) => void

/** The ones after which it goes on come more often than the ones that end it, so that runs get somewhere. */
const error = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom('no-speech', 'aborted', 'audio-capture', 'odd') },
  { weight: 1, arbitrary: fc.constantFrom('network', 'not-allowed', 'service-not-allowed', 'language-not-supported') }
)
const event = fc.oneof(
  { weight: 2, arbitrary: fc.constantFrom('start', 'audiostart') },
  { weight: 1, arbitrary: fc.constantFrom('soundstart', 'speechstart', 'speechend', 'soundend', 'audioend', 'nomatch') }
)

/** A move with its name, so that a counterexample can be read. */
const named = (name: string, act: Move) => ({ act, [fc.toStringMethod]: () => name })

/** Mostly the newest session, sometimes one that should be forgotten. */
const which = fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: fc.constantFrom(1, 2, 3) })
const onSession = (name: string, back: number, act: (session: World['recognisers']['all'][number]) => void) =>
  named(`${name} of session -${back}`, (world) => {
    const session = world.recognisers.all.at(-1 - back)
    if (session) act(session)
  })

const byOperator = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.constantFrom('en', 'en', 'es-MX').map((to) => named(`start ${to}`, (world) => world.ears.start(to)))
  },
  { weight: 1, arbitrary: fc.constant(named('stop', (world) => world.ears.stop())) },
  { weight: 2, arbitrary: fc.constant(named('try again', (world) => world.ears.tryAgain())) }
)
const byApp = fc.constantFrom(
  named('gate', (world) => world.gate()),
  named('open', (world) => world.open()),
  named('open', (world) => world.open())
)
const byBrowser = fc.oneof(
  fc.boolean().map((now) => named(`show ${now}`, (world) => world.show(now))),
  fc.boolean().map((now) => named(`network ${now}`, (world) => world.network(now))),
  fc.constant(named('devicechange', (world) => world.deviceChange())),
  fc
    .constantFrom('granted', 'denied', 'prompt')
    .map((to) => named(`permission ${to}`, (world) => world.permission.set(to))),
  fc
    .constantFrom('NotAllowedError', 'InvalidStateError')
    .map((name) => named(`refuse ${name}`, (world) => world.recognisers.refuseNext(name)))
)
const byTime = fc
  .oneof(fc.constantFrom(300, 1000, 2500, 20_000), fc.nat(3000), fc.nat(70_000))
  .map((ms) => named(`advance ${ms}`, (world) => world.clock.advance(ms)))
const byEngine = fc.oneof(
  fc.tuple(which, event).map(([back, type]) => onSession(type, back, (it) => it.fire(type))),
  fc.tuple(which, error).map(([back, code]) => onSession(`error ${code}`, back, (it) => it.error(code))),
  which.map((back) => onSession('end', back, (it) => it.end())),
  fc
    .tuple(which, fc.constantFrom('next', 'done'), fc.boolean(), fc.nat(2))
    .map(([back, words, final, index]) => onSession(words, back, (it) => it.result(words, { final, index })))
)
const moves = fc.array(
  fc.oneof(
    { weight: 4, arbitrary: byOperator },
    { weight: 4, arbitrary: byApp },
    { weight: 4, arbitrary: byBrowser },
    { weight: 8, arbitrary: byTime },
    { weight: 16, arbitrary: byEngine }
  ),
  { maxLength: 80, size: 'max' }
)
const manner = fc.constantFrom('keeps-listening' as const, 'press-to-talk' as const)

/** A state that is not settled must have something set that will change it. */
function onItsWay(world: World): boolean {
  const state = world.ears.state()
  switch (state.kind) {
    case 'starting':
      return world.clock.pending() > 0
    case 'retrying':
      return world.clock.pending() > 0 && state.untilSteady > world.clock.steady()
    case 'listening':
      return world.clock.pending() > 0 && world.recognisers.last().alive()
    // Only ears that wait for a word do, and these know of none.
    case 'waiting-for-word':
      return false
    case 'off':
    case 'gated':
    case 'deaf':
      return true
  }
}

/** The world itself records every start that is wrong: gated, hidden, deaf, off, or beside a session that is alive. */
function expectSound(world: World) {
  expect(world.recognisers.faults).toEqual([])
  expect(onItsWay(world), JSON.stringify(world.ears.state())).toBe(true)
}

test('no order of events makes two sessions live at once, or starts one that must not be', () => {
  fc.assert(
    fc.property(moves, manner, fc.double({ min: 0, max: 1, noNaN: true }), (all, how, chance) => {
      const world = webSpeechWorld({ manner: how, chance: () => chance })
      for (const { act } of all) {
        act(world)
        expectSound(world)
      }
    }),
    { numRuns: 1500 }
  )
})

test('whatever happened, an operator who asks again gets a healthy engine to listen', () => {
  fc.assert(
    fc.property(moves, manner, (all, how) => {
      const world = webSpeechWorld({ manner: how })
      for (const { act } of all) act(world)
      world.show(true)
      world.network(true)
      world.open()
      world.ears.start('en')
      world.ears.tryAgain()
      // A throw that is still in store costs one retry.
      for (let waited = 0; waited < 5000 && world.kind() !== 'listening'; waited += 100) {
        world.clock.advance(100)
        const session = world.recognisers.all.at(-1)
        if (session?.alive()) session.fire('start')
        if (world.kind() === 'deaf') world.ears.tryAgain()
      }
      expect(world.kind()).toBe('listening')
      expectSound(world)
      world.recognisers.last().result('after all', { index: 9 })
      world.recognisers.last().end()
      expect(world.heard.at(-1)?.alternatives[0]?.words).toBe('after all')
    }),
    { numRuns: 700 }
  )
})

test('stopped ears leave no timer behind', () => {
  fc.assert(
    fc.property(moves, manner, (all, how) => {
      const world = webSpeechWorld({ manner: how })
      for (const { act } of all) act(world)
      world.ears.stop()
      world.clock.advance(1000)
      expect(world.clock.pending()).toBe(0)
      expect(world.browserLocks.heldNames()).toEqual([])
    }),
    { numRuns: 500 }
  )
})
