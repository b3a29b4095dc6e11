import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { guardsOf } from '../../src/app/guards.ts'
import type { Call } from '../../src/core/run/call.ts'
import { replay } from '../../src/core/run/reduce.ts'
import { wordsEn } from '../../src/core/talk/words.en.ts'
import { EVERYTHING } from '../helpers/a-procedure.ts'
import { kitchen, say, shippedProcedure, type Kitchen, type Page } from '../helpers/kitchen-page.ts'
import { wordsFor } from '../helpers/operator.ts'
import { wrongIn } from '../helpers/run-oracle.ts'

let place: Kitchen
const begin = async (yamlText: string) => {
  place = await kitchen(yamlText)
}
afterEach(() => place.end())

const callOf = (page: Page): Call => page.run().conductor.$call.get()

/** A sensible operator goes on, by voice alone, until `until` says so. */
async function workUntil(page: Page, until: (call: Call) => boolean): Promise<void> {
  for (let turns = 0; !until(callOf(page)); turns += 1) {
    if (turns > 2000) throw new Error(`No end in sight at ${JSON.stringify(callOf(page))}`)
    const { course } = page.run().session.$state.get()
    const words = wordsFor(course, callOf(page))
    if (words.length === 0) await place.pass(1000)
    for (const word of words) await say(place, page, word)
  }
}

const guardsOn = ({ app }: Page) =>
  guardsOf({
    ears: app.$ears.get(),
    mouth: app.$mouth.get(),
    alarm: app.$alarm.get(),
    screenLock: app.$screenLock.get(),
    link: app.$link.get(),
    clock: app.$clock.get(),
    voiceElsewhere: app.$voiceElsewhere.get(),
    lockReach: app.$lockReach.get()
  })

const bothWait = (page: Page) => (call: Call) => {
  const { lanes } = page.run().session.$state.get().run
  const waits = (lane: string) => lanes[lane]?.waiting?.acknowledgedAt === null
  return call.kind === 'all-waiting' && waits('left') && waits('right')
}

describe('the shipped procedures', () => {
  test.each(['twin-freezer-closing.yaml', 'twin-freezer-opening.yaml'])(
    '%s: the whole run by voice, both sides in parallel, complete on the server',
    async (file) => {
      await begin(shippedProcedure(file))
      const page = await place.start()
      await workUntil(page, ({ kind }) => kind === 'finished')
      const { session } = page.run()
      // With its last words.
      await place.pass(20_000)
      const { events, course, run } = session.$state.get()
      expect(run.status).toBe('finished')
      expect(wrongIn(course.procedure, events)).toEqual([])
      const stored = await place.records.eventsAfter(run.id, 0)
      expect(stored.events.map(({ id }) => id).sort()).toEqual(events.map(({ id }) => id).sort())
      expect(replay(course, run.id, stored.events)).toEqual(run)
      // In parallel: the right side was worked on while the left side waited.
      const leftWaits = events.filter((event) => event.type === 'step-done' && event.lane === 'left')
      expect(leftWaits.length).toBeGreaterThan(20)
      page.close()
    },
    120_000
  )
})

describe('waits', () => {
  beforeEach(() => begin(EVERYTHING))

  test('"all done" before the end is refused with the time left, and the attempt is in the record', async () => {
    const page = await place.start()
    await workUntil(page, bothWait(page))
    await say(place, page, 'all done')
    expect(page.app.speaker.$line.get()?.text).toMatch(/^Too soon\. Left: \d+ seconds to go\.$/)
    const refused = page
      .run()
      .session.$state.get()
      .events.filter((event) => event.type === 'refused')
    expect(refused).toMatchObject([{ reason: 'wait-not-over', lane: 'left', command: 'done' }])
    page.close()
  })

  test('the alarm rings again and again until somebody answers, with rising urgency', async () => {
    const page = await place.start()
    await workUntil(page, (call) => call.kind === 'alarm')
    await place.pass(30_000)
    expect(page.alarm.rings.length + page.alarm.sounded.length).toBeGreaterThan(3)
    expect(Math.max(...page.alarm.rings)).toBe(3)
    await say(place, page, 'yes')
    const rings = page.alarm.rings.length
    expect(callOf(page).kind).not.toBe('alarm')
    await place.pass(20_000)
    expect(page.alarm.rings.length).toBe(rings)
    page.close()
  })

  test.each([
    ['forwards', 3_600_000],
    ['backwards', -3_600_000]
  ])('setting the clock an hour %s shortens no wait, and is in the record', async (_, byMs) => {
    const page = await place.start()
    await workUntil(page, bothWait(page))
    const due = page.run().session.$state.get().run.lanes['left']?.waiting?.due ?? 0
    const left = due - page.run().conductor.$now.get()
    place.clock.moveWall(byMs)
    await place.pass(left - 2000)
    expect(callOf(page).kind).toBe('all-waiting')
    await place.pass(3000)
    expect(callOf(page)).toMatchObject({ kind: 'alarm', lane: 'left' })
    expect(
      page
        .run()
        .session.$state.get()
        .events.some((event) => event.type === 'clock-moved')
    ).toBe(true)
    page.close()
  })

  test('a closed lid counts once the server confirms the time; without a server it does not', async () => {
    const page = await place.start()
    await workUntil(page, bothWait(page))
    const leftNow = () =>
      (page.run().session.$state.get().run.lanes['left']?.waiting?.due ?? 0) - page.run().conductor.$now.get()
    const before = leftNow()
    place.serverAway(true)
    place.lidClosed(30_000)
    await place.pass(1000)
    expect(leftNow()).toBeGreaterThan(before - 2000)
    expect(page.app.$clock.get()?.unconfirmedMs).toBe(30_000)
    place.serverAway(false)
    page.app.wake()
    await place.pass(1000)
    expect(page.app.$clock.get()?.unconfirmedMs ?? 0).toBe(0)
    expect(leftNow()).toBeLessThan(before - 30_000)
    page.close()
  })

  test('a wait begun while the device lags behind is not over at once when the server answers', async () => {
    const page = await place.start()
    await workUntil(page, ({ kind }) => kind === 'step')
    place.serverAway(true)
    place.lidClosed(600_000)
    await place.pass(1000)
    await workUntil(page, (call) => call.kind === 'all-waiting')
    const waits = () => Object.values(page.run().session.$state.get().run.lanes).flatMap(({ waiting }) => waiting ?? [])
    const left = () => Math.min(...waits().map(({ due }) => due)) - page.run().conductor.$now.get()
    const before = left()
    place.serverAway(false)
    page.app.wake()
    await place.pass(500)
    expect(page.app.$clock.get()?.unconfirmedMs ?? 0).toBe(0)
    expect(left()).toBeGreaterThanOrEqual(before - 1500)
    expect(page.run().session.$state.get().events).toContainEqual(expect.objectContaining({ type: 'clock-caught-up' }))
    page.close()
  })

  test('a reload in the middle of both waits goes on with the same due times', async () => {
    const page = await place.start()
    await workUntil(page, bothWait(page))
    const before = page.run().session.$state.get().run
    await place.pass(10_000)
    page.close()
    await place.pass(10_000)
    const again = await place.open()
    expect(again.run().session.$state.get().run).toEqual(before)
    const view = again.app.$view.get()
    expect(view.kind === 'run' && view.needsTap).toBe(true)
    again.app.unlock()
    await workUntil(again, ({ kind }) => kind === 'finished')
    const { course, events } = again.run().session.$state.get()
    expect(wrongIn(course.procedure, events)).toEqual([])
    again.close()
  })
})

describe('bad days', () => {
  beforeEach(() => begin(EVERYTHING))

  test('two taps on Start begin one run', async () => {
    const page = await place.open()
    page.app.$settings.set({ ...page.app.$settings.get(), operator: 'Ada' })
    const view = page.app.$view.get()
    await page.app.choose((view.kind === 'choose' && view.offers?.procedures[0]?.hash) || '')
    await Promise.all([page.app.begin(), page.app.begin()])
    await place.pass(2000)
    expect(await place.records.runs(10)).toHaveLength(1)
    page.close()
  })

  test('going back takes the last thing back and leaves both in the record', async () => {
    const page = await place.start()
    await say(place, page, 'all done')
    const doneId = page.run().session.$state.get().run.progress.at(-1)?.id
    await say(place, page, 'go back')
    await place.pass(1500)
    expect(page.mouth.said.map(({ text }) => text)).toContain(wordsEn.takenBack('Left', 'Fill the hopper.'))
    const { events, run } = page.run().session.$state.get()
    expect(run.lanes['left']?.position).toBe(0)
    expect(events.some((event) => event.id === doneId)).toBe(true)
    expect(events.at(-1)).toMatchObject({ type: 'taken-back', cancels: doneId })
    page.close()
  })

  test('the server goes away and comes back: nothing is missing, and the page said so meanwhile', async () => {
    const page = await place.start()
    place.serverAway(true)
    await say(place, page, 'all done')
    await place.pass(20_000)
    expect(page.app.$link.get()).toMatchObject({ kind: 'away' })
    await say(place, page, 'yes')
    place.serverAway(false)
    await place.pass(20_000)
    expect(page.app.$link.get()).toEqual({ kind: 'linked' })
    const { run, events } = page.run().session.$state.get()
    expect((await place.records.eventsAfter(run.id, 0)).events.length).toBe(events.length)
    page.close()
  })

  test('a server with a full disk is named on the screen in its own words, and gets everything once it has room', async () => {
    const page = await place.start()
    place.serverFull(true)
    await say(place, page, 'all done')
    await place.pass(20_000)
    const server = guardsOn(page).find(({ name }) => name === 'server')
    expect(server).toMatchObject({ health: 'dead', fault: 'server-failing' })
    if (server?.health !== 'dead') throw new Error('The server looks alive.')
    expect(server.said).toContain('The disk is full')
    expect(server.amount).toBeGreaterThan(0)
    await say(place, page, 'yes')
    place.serverFull(false)
    await place.pass(20_000)
    expect(page.app.$link.get()).toEqual({ kind: 'linked' })
    const { run, events } = page.run().session.$state.get()
    expect((await place.records.eventsAfter(run.id, 0)).events.length).toBe(events.length)
    page.close()
  })

  test('a full device says that nothing was kept, and announces nothing', async () => {
    const page = await place.start()
    const before = page.run().session.$state.get().events.length
    page.log.failAll('full')
    await say(place, page, 'all done')
    expect(page.run().session.$state.get().events.length).toBe(before)
    expect(page.run().conductor.$trouble.get()?.reason).toBe('full')
    expect(page.app.speaker.$line.get()?.text).toContain('That was not kept')
    page.log.failAll(null)
    await say(place, page, 'all done')
    expect(page.run().conductor.$trouble.get()).toBe(null)
    expect(page.run().session.$state.get().run.lanes['left']?.position).toBe(1)
    page.close()
  })

  test('two tabs on one run: one has the voice, both show the same, the other takes over', async () => {
    const first = await place.start()
    const second = await place.open()
    expect(second.app.$voiceElsewhere.get()).toBe(true)
    await say(place, first, 'all done')
    await place.pass(500)
    expect(second.run().session.$state.get().run).toEqual(first.run().session.$state.get().run)
    await second.run().conductor.intend({ type: 'yes' }, 'touch')
    await place.pass(500)
    expect(first.run().session.$state.get().run.lanes['left']?.cautioned).toBe(true)
    first.close()
    await place.pass(500)
    expect(second.app.$voiceElsewhere.get()).toBe(false)
    second.close()
  })

  test('a mute voice and deaf ears leave a run that can be done by touch and typed words', async () => {
    const page = await place.start()
    page.mouth.become({ kind: 'mute', reason: 'no-voice' })
    page.ears.goDeaf('denied')
    expect(page.app.$ears.get()).toEqual({ kind: 'deaf', reason: 'denied' })
    await page.run().conductor.intend({ type: 'done' }, 'touch')
    await page.run().conductor.hearWords(['yes'], 'typed')
    await page.run().conductor.hearWords(['next step'], 'typed')
    expect(page.run().session.$state.get().run.lanes['left']?.position).toBe(2)
    page.close()
  })

  test('its own words coming back through the microphone are not obeyed', async () => {
    const page = await place.start()
    const before = page.run().session.$state.get().events.length
    await say(place, page, 'left fill the hopper')
    expect(page.run().session.$state.get().events.length).toBe(before)
    page.close()
  })
})
