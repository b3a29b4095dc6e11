import { atom } from 'nanostores'
import { expect, test } from 'vitest'
import { fakeAlarm } from '../../tests/helpers/fake-alarm.ts'
import { fakeClock, promisesRun } from '../../tests/helpers/fake-clock.ts'
import { fakeEars } from '../../tests/helpers/fake-ears.ts'
import { fakeMouth } from '../../tests/helpers/fake-mouth.ts'
import { talkIn } from '../core/talk/languages.ts'
import { soundCheck } from './sound-check.ts'

const $talk = atom(await talkIn('en'))

function world() {
  const clock = fakeClock()
  const [ears, mouth, alarm] = [fakeEars(clock), fakeMouth(), fakeAlarm(clock)]
  const check = soundCheck({ ears, mouth, alarm, clock }, { $talk, speakable: (text) => text })

  return {
    clock,
    ears,
    mouth,
    alarm,
    check,
    state: () => check.$state.get(),
    async asked() {
      check.begin()
      await promisesRun()
      mouth.finish()
      await clock.pass(600)
    }
  }
}

test('speaks, then listens, then says what it heard', async () => {
  const it = world()
  it.check.begin()
  await promisesRun()
  expect(it.state()).toEqual({ kind: 'speaking' })
  expect(it.mouth.now()).toBe('Count to three for me.')
  expect([it.alarm.unlocks, it.mouth.unlocks]).toEqual([1, 1])
  expect(it.ears.state()).toEqual({ kind: 'gated' })
  it.mouth.finish()
  await it.clock.pass(600)
  expect(it.state()).toEqual({ kind: 'listening' })
  it.ears.say('one two three')
  await promisesRun()
  expect(it.state()).toEqual({ kind: 'heard', words: 'one two three' })
  expect(it.mouth.now()).toBe('I heard: one two three.')
  expect(it.ears.state()).toEqual({ kind: 'off' })
})

test('hears nothing for eight seconds, and says so', async () => {
  const it = world()
  await it.asked()
  await it.clock.pass(8000)
  expect(it.state()).toEqual({ kind: 'nothing-heard' })
  expect(it.mouth.now()).toBe('I heard nothing.')
})

test('tells why the ears are deaf', async () => {
  const it = world()
  await it.asked()
  it.ears.goDeaf('denied')
  await it.clock.pass(8000)
  expect(it.state()).toEqual({ kind: 'deaf', reason: 'denied' })
})

test('tells why the mouth is mute, and listens no further', async () => {
  const it = world()
  it.check.begin()
  await promisesRun()
  it.mouth.fail('no-voice')
  await it.clock.pass(20_000)
  expect(it.state()).toEqual({ kind: 'mute', reason: 'no-voice' })
  expect(it.ears.state()).toEqual({ kind: 'off' })
})

test('ended in the middle, it is still, and nothing follows', async () => {
  const it = world()
  await it.asked()
  it.check.end()
  await it.clock.pass(20_000)
  expect(it.ears.state()).toEqual({ kind: 'off' })
  expect(it.mouth.said).toHaveLength(1)
})

test('its end leaves ears alone that a run has taken since', async () => {
  const it = world()
  it.ears.start('en')
  it.check.end()
  expect(it.ears.state()).toEqual({ kind: 'listening' })
})

test('begun again, it starts over', async () => {
  const it = world()
  await it.asked()
  await it.asked()
  it.ears.say('one')
  await promisesRun()
  expect(it.state()).toEqual({ kind: 'heard', words: 'one' })
})
