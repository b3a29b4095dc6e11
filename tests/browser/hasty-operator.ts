/** Works through a run on the real page by voice, as fast as the page lets anybody, on a clock that nobody waits for. */
import type { Page } from 'playwright-core'
import type { Course } from '../../src/core/procedure/course.ts'
import { callAt, type Call } from '../../src/core/run/call.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { replay } from '../../src/core/run/reduce.ts'
import type { KitchenServer } from '../helpers/kitchen-server.ts'
import { wordsFor } from '../helpers/operator.ts'

export interface Workplace {
  /** With its clock and the scripted voice installed. */
  readonly page: Page
  readonly server: KitchenServer
  readonly course: Course
}

export interface HastyOperator {
  /** Of the run begun last, as the server has them. */
  events(): Promise<readonly RunEvent[]>
  /** What stands on the screen: the kind of call, or `finished`. */
  shownNow(): Promise<string | null | undefined>
  /** Lets the page's own timers go on, and the server's clock with them. */
  pass(ms: number): Promise<void>
  say(words: string): Promise<void>
  /** Until what is shown and what the log on the server calls for are so. What is said may be stale by a moment, and is then refused like anybody's. */
  workUntil(until: (shown: string, call: Call) => boolean): Promise<void>
}

/** `place` is asked each time: a test may change it. */
export function hastyOperator(place: () => Workplace): HastyOperator {
  async function pass(ms: number): Promise<void> {
    const { page, server } = place()
    server.pass(ms)
    await page.clock.runFor(ms)
  }

  const events = () => place().server.events()

  /** What the log on the server says now; the page may be a moment ahead. */
  async function callNow(): Promise<Call> {
    const { course, server } = place()
    const answer = await fetch(`${server.url}/api/time`)
    const { trusted } = (await answer.json()) as { trusted: number }
    const known = await events()
    return callAt(course, replay(course, known[0]?.runId ?? 'run', known), trusted)
  }

  function shownNow() {
    return place().page.evaluate(() => {
      if (document.querySelector('.finished')) return 'finished'
      if (document.querySelector('.alarm')) return 'alarm'
      return document.querySelector('.call-area')?.getAttribute('data-call')
    })
  }

  async function say(words: string): Promise<void> {
    const { page } = place()
    for (let tries = 0; !(await page.evaluate((said) => sidecallVoice.hear(said), words)); tries += 1) {
      if (tries > 100) throw new Error(`Nobody listens to "${words}".`)
      // Tones play in real time, whatever the page's clock says.
      await page.waitForTimeout(20)
      await pass(250)
    }
    // The same words again within a second are one utterance told twice by the engine.
    await pass(1100)
  }

  /** The answer to one reading, said a second time to the next, would stop the lane. What changed nothing is said again. */
  async function serverHasMoreThan(before: number): Promise<void> {
    for (let tries = 0; tries < 50 && (await events()).length <= before; tries += 1) {
      await place().page.waitForTimeout(20)
      await pass(400)
    }
  }

  async function workUntil(until: (shown: string, call: Call) => boolean): Promise<void> {
    for (let turns = 0; turns < 3000; turns += 1) {
      const { page, course } = place()
      const call = await callNow()
      const shown = (await shownNow()) ?? ''
      if (until(shown, call)) return
      if (shown === 'alarm') {
        // Tones play in real time, which the page's clock here does not follow; answering one by voice has its own test.
        await page.keyboard.press('y')
        await pass(900)
      } else if (shown !== call.kind) {
        await page.waitForTimeout(20)
        await pass(400)
      } else {
        const words = wordsFor(course, call)
        if (words.length === 0) await pass(20_000)
        const before = (await events()).length
        for (const word of words) await say(word)
        if (words.length > 0) await serverHasMoreThan(before)
      }
    }
    throw new Error('The run came to no end.')
  }

  return { events, shownNow, pass, say, workUntil }
}
