import { expect, test } from 'vitest'
import { type PageMoment, pageVisibility } from './page-visibility.ts'

function page() {
  const document = Object.assign(new EventTarget(), { visibilityState: 'visible' })
  const window = new EventTarget()
  const moments: PageMoment[] = []
  const visibility = pageVisibility({ document, window })
  const forget = visibility.onMoment((moment) => moments.push(moment))
  return {
    visibility,
    moments,
    forget,
    become(state: string) {
      document.visibilityState = state
      document.dispatchEvent(new Event('visibilitychange'))
    },
    document,
    window
  }
}

test('tells each change of visibility once', () => {
  const it = page()
  expect(it.visibility.visible()).toBe(true)
  it.become('hidden')
  it.become('hidden')
  expect(it.visibility.visible()).toBe(false)
  it.become('visible')
  expect(it.moments).toEqual(['hidden', 'visible'])
})

test('tells of freezing, and of a page taken back from the cache but not of a first load', () => {
  const it = page()
  it.document.dispatchEvent(new Event('freeze'))
  it.document.dispatchEvent(new Event('resume'))
  it.window.dispatchEvent(Object.assign(new Event('pageshow'), { persisted: false }))
  it.window.dispatchEvent(Object.assign(new Event('pageshow'), { persisted: true }))
  expect(it.moments).toEqual(['frozen', 'resumed', 'shown-again'])
})

test('stops telling', () => {
  const it = page()
  it.forget()
  it.become('hidden')
  expect(it.moments).toEqual([])
})
