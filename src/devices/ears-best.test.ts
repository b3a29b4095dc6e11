import { describe, expect, test } from 'vitest'
import { fakeClock, promisesRun } from '../../tests/helpers/fake-clock.ts'
import { fakeEars } from '../../tests/helpers/fake-ears.ts'
import { bestEars } from './ears-best.ts'

function twoEars(ownReady: () => Promise<boolean> = async () => true, isAllowed = false) {
  const clock = fakeClock()
  const browser = fakeEars(clock)
  const own = { ...fakeEars(clock), which: () => 'embedded' as const }
  const ears = bestEars({ browser, own, ownReady, microphoneAllowed: () => isAllowed })
  const heard: string[] = []
  ears.onHeard(({ alternatives }) => heard.push(alternatives[0]?.words ?? ''))
  return { browser, own, ears, heard }
}

describe('the best ears', () => {
  test("the browser's are used as long as they work", () => {
    const { browser, ears, heard } = twoEars()
    ears.start('en')
    browser.say('all done')
    expect(heard).toEqual(['all done'])
    expect(ears.which()).toBe('browser')
  })

  test.each(['unsupported', 'no-engine', 'not-answering', 'language-missing', 'no-microphone'] as const)(
    'our own take over when the browser proves to be %s',
    async (reason) => {
      const { browser, own, ears, heard } = twoEars()
      ears.start('en')
      browser.goDeaf(reason)
      expect(ears.state().kind).toBe('starting')
      await promisesRun()
      expect(ears.which()).toBe('embedded')
      expect(ears.state().kind).toBe('listening')
      expect(browser.language).toBeNull()
      own.say('all done')
      expect(heard).toEqual(['all done'])
    }
  )

  test.each(['denied', 'other-tab'] as const)('%s would be the same for our own', async (reason) => {
    const { browser, ears } = twoEars()
    ears.start('en')
    browser.goDeaf(reason)
    await promisesRun()
    expect(ears.which()).toBe('browser')
    expect(ears.state()).toEqual({ kind: 'deaf', reason })
  })

  test('a recogniser that is forbidden where the microphone is not is missing all the same', async () => {
    const { browser, ears } = twoEars(undefined, true)
    ears.start('en')
    browser.goDeaf('denied')
    await promisesRun()
    expect(ears.which()).toBe('embedded')
  })

  test("a microphone that is pulled out is not the fault of the browser's ears that worked", async () => {
    const { browser, ears, heard } = twoEars()
    ears.start('en')
    browser.say('all done')
    browser.retryUntil(2000, 'no-microphone')
    await promisesRun()
    expect(ears.which()).toBe('browser')
    expect(ears.state()).toMatchObject({ kind: 'retrying', reason: 'no-microphone' })
    expect(heard).toEqual(['all done'])
  })

  test('without the network that it needs, the browser is not waited for', async () => {
    const { browser, ears } = twoEars()
    ears.start('en')
    browser.retryUntil(60_000, 'no-engine')
    await promisesRun()
    expect(ears.which()).toBe('embedded')
  })

  test('when our own cannot be had the reason stays, until somebody tries again', async () => {
    let reachable = false
    const { browser, ears } = twoEars(async () => reachable)
    ears.start('en')
    browser.goDeaf('no-engine')
    await promisesRun()
    expect(ears.state()).toEqual({ kind: 'deaf', reason: 'no-engine' })
    reachable = true
    ears.tryAgain()
    browser.goDeaf('no-engine')
    await promisesRun()
    expect(ears.which()).toBe('embedded')
  })

  test('the gate closes both, and stopping while loading starts nothing', async () => {
    const { browser, own, ears } = twoEars()
    ears.start('en')
    ears.gate()
    browser.goDeaf('no-engine')
    await promisesRun()
    expect(own.state().kind).toBe('gated')
    ears.open()
    expect(own.state().kind).toBe('listening')
    const late = twoEars()
    late.ears.start('en')
    late.browser.goDeaf('no-engine')
    late.ears.stop()
    await promisesRun()
    expect(late.own.language).toBeNull()
  })
})
