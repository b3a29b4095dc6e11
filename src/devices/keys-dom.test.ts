import { expect, it } from 'vitest'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { HOLD_MS, type Key, type KeyPress } from '../ports/keys.ts'
import { DEBOUNCE_MS, domKeys } from './keys-dom.ts'

/** A window that takes key events, with a focused element that matches the selectors given. */
function keyboard(uses: (key: Key) => boolean = () => true) {
  const clock = fakeClock()
  const window = new EventTarget()
  let focused: readonly string[] | null = null
  const presses: KeyPress[] = []
  const holding: (string | null)[] = []
  const stop = domKeys(clock, {
    window,
    focused: () =>
      focused ? { matches: (selector) => focused?.some((part) => selector.includes(part)) ?? false } : null
  }).take({
    uses,
    longest: () => HOLD_MS,
    pressed: (press) => presses.push(press),
    holding: (key) => holding.push(key?.code ?? null)
  })
  function send(type: 'keydown' | 'keyup', key: string, more: Partial<KeyboardEvent> = {}): Event {
    const event = Object.assign(new Event(type, { cancelable: true }), {
      key,
      code: key === ' ' ? 'Space' : key,
      ...more
    })
    window.dispatchEvent(event)
    return event
  }
  return {
    clock,
    window,
    presses,
    holding,
    stop,
    send,
    focus: (on: readonly string[] | null) => (focused = on),
    press(key: string, ms = 50) {
      const event = send('keydown', key)
      clock.advance(ms)
      send('keyup', key)
      return event
    }
  }
}

it('tells a short press at its release, with how long it took', () => {
  const { presses, press } = keyboard()
  expect(press('PageDown', 120).defaultPrevented).toBe(true)
  expect(presses).toEqual([{ code: 'PageDown', key: 'PageDown', heldMs: 120 }])
})

it('tells a held key once, while it is still down', () => {
  const { clock, presses, holding, send } = keyboard()
  send('keydown', ' ')
  expect(holding).toEqual(['Space'])
  clock.advance(HOLD_MS - 1)
  expect(presses).toEqual([])
  clock.advance(1)
  expect(presses).toEqual([{ code: 'Space', key: ' ', heldMs: HOLD_MS }])
  expect(holding).toEqual(['Space', null])
  send('keydown', ' ', { repeat: true })
  clock.advance(5000)
  send('keyup', ' ')
  expect(presses).toHaveLength(1)
})

it('takes the repeats of a held key for nothing', () => {
  const { presses, send, clock } = keyboard()
  send('keydown', 'PageDown')
  send('keydown', 'PageDown', { repeat: true })
  clock.advance(100)
  send('keydown', 'PageDown', { repeat: true })
  send('keyup', 'PageDown')
  expect(presses).toHaveLength(1)
})

it('takes a bouncing pedal for one press, and a later press for another', () => {
  const { presses, press, clock } = keyboard()
  press('PageDown', 20)
  press('PageDown', 20)
  expect(presses).toHaveLength(1)
  clock.advance(DEBOUNCE_MS)
  press('PageDown', 20)
  expect(presses).toHaveLength(2)
})

it('lets the same digit be typed twice quickly', () => {
  const { presses, press } = keyboard()
  press('4', 40)
  press('4', 40)
  expect(presses.map(({ key }) => key)).toEqual(['4', '4'])
})

it('lets another key follow at once', () => {
  const { presses, press } = keyboard()
  press('PageDown', 20)
  press('PageUp', 20)
  expect(presses.map(({ key }) => key)).toEqual(['PageDown', 'PageUp'])
})

it('leaves keys alone in a field, with a modifier, and when nobody uses them', () => {
  const { presses, press, focus, send } = keyboard(({ key }) => key !== 'x')
  focus(['input'])
  expect(press('y').defaultPrevented).toBe(false)
  focus(null)
  expect(send('keydown', 'y', { ctrlKey: true }).defaultPrevented).toBe(false)
  expect(press('x').defaultPrevented).toBe(false)
  expect(presses).toEqual([])
})

it('leaves Enter to a control that the keyboard moved to, and no other key', () => {
  const { presses, press, focus } = keyboard()
  focus([':focus-visible'])
  expect(press('Enter').defaultPrevented).toBe(false)
  press('PageDown')
  expect(presses.map(({ key }) => key)).toEqual(['PageDown'])
})

it('forgets a key that is down when the window loses the focus', () => {
  const { presses, send, window, clock } = keyboard()
  send('keydown', ' ')
  window.dispatchEvent(new Event('blur'))
  clock.advance(HOLD_MS * 2)
  send('keyup', ' ')
  expect(presses).toEqual([])
  expect(clock.pending()).toBe(0)
})

it('hears nothing after it was told to stop', () => {
  const { presses, press, stop } = keyboard()
  stop()
  expect(press('PageDown').defaultPrevented).toBe(false)
  expect(presses).toEqual([])
})
