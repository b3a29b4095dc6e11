import { describe, expect, test } from 'vitest'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import type { Contact, TouchWatcher } from '../ports/touches.ts'
import { domTouches } from './touches-dom.ts'

/** Events as browsers make them, as far as they are read here; Node has no pointers. */
function pointer(type: string, more: Record<string, unknown> = {}): Event {
  return Object.assign(new Event(type, { cancelable: true }), {
    pointerId: 1,
    pointerType: 'touch',
    clientX: 10,
    clientY: 20,
    width: 30,
    height: 44,
    ...more
  })
}

function setUp(verdict: { began: boolean; ended: boolean }) {
  const clock = fakeClock()
  const window = new EventTarget()
  const heard: string[] = []
  const contacts: Contact[] = []
  const watcher: TouchWatcher = {
    began(contact) {
      heard.push('began')
      contacts.push(contact)
      return verdict.began
    },
    moved: () => void heard.push('moved'),
    ended() {
      heard.push('ended')
      return verdict.ended
    },
    lost: (id) => void heard.push(`lost ${id}`)
  }
  const stop = domTouches(clock, window).watch(watcher)
  const reached: string[] = []
  for (const name of ['pointerdown', 'click']) window.addEventListener(name, () => reached.push(name))
  return { clock, window, heard, contacts, reached, stop }
}

const click = (detail = 1) => pointer('click', { detail, pointerType: '' })

describe('fingers', () => {
  test('are told with place and size, from beginning to end', () => {
    const { window, heard, contacts, reached } = setUp({ began: true, ended: true })
    for (const name of ['pointerdown', 'pointermove', 'pointerup']) window.dispatchEvent(pointer(name))
    window.dispatchEvent(click())
    expect(heard).toEqual(['began', 'moved', 'ended'])
    expect(contacts[0]).toMatchObject({ id: 1, x: 10, y: 20, size: 44 })
    expect(reached).toEqual(['pointerdown', 'click'])
  })

  test('that do not count reach nothing, neither with their beginning nor with a click', () => {
    const { window, reached, clock } = setUp({ began: false, ended: false })
    window.dispatchEvent(pointer('pointerdown'))
    window.dispatchEvent(pointer('pointerup'))
    const late = click()
    window.dispatchEvent(late)
    expect(reached).toEqual([])
    expect(late.defaultPrevented).toBe(true)
    clock.advance(500)
    window.dispatchEvent(click())
    expect(reached).toEqual(['click'])
  })

  test('a key that clicks is no finger', () => {
    const { window, reached } = setUp({ began: false, ended: false })
    window.dispatchEvent(pointer('pointerdown'))
    window.dispatchEvent(pointer('pointerup'))
    window.dispatchEvent(click(0))
    expect(reached).toEqual(['click'])
  })

  test('taken away by the browser are forgotten, and their end is not told', () => {
    const { window, heard } = setUp({ began: true, ended: true })
    window.dispatchEvent(pointer('pointerdown'))
    window.dispatchEvent(pointer('pointercancel'))
    window.dispatchEvent(pointer('pointerup'))
    expect(heard).toEqual(['began', 'lost 1'])
  })
})

test('mice and pens are left alone, and after the end everything is', () => {
  const { window, heard, reached, stop } = setUp({ began: false, ended: false })
  window.dispatchEvent(pointer('pointerdown', { pointerType: 'mouse' }))
  window.dispatchEvent(pointer('pointerup', { pointerType: 'mouse' }))
  window.dispatchEvent(click())
  stop()
  window.dispatchEvent(pointer('pointerdown'))
  expect(heard).toEqual([])
  expect(reached).toEqual(['pointerdown', 'click', 'pointerdown'])
})
