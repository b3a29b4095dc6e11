/** What was said and heard, on the screen and in the record: the real app and the real server. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { makeRecord } from '../../src/core/record/make-record.ts'
import { recordsCsv } from '../../src/core/record/record-csv.ts'
import { recordWordsEn } from '../../src/core/record/words.en.ts'
import { replay } from '../../src/core/run/reduce.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { SMALL } from '../helpers/a-procedure.ts'
import { wordsFor } from '../helpers/operator.ts'
import { kitchen, say, type Kitchen, type Page } from '../helpers/kitchen-page.ts'

let place: Kitchen
beforeEach(async () => {
  place = await kitchen(SMALL)
})
afterEach(() => place.end())

const PIECE_MS = 31_000
const spokenIn = (events: readonly RunEvent[]) => events.filter((event) => event.type === 'spoken')
const linesIn = (events: readonly RunEvent[]) => spokenIn(events).flatMap(({ lines }) => lines)
const eventsOf = (page: Page) => page.run().session.$state.get().events
const stored = async (page: Page) => (await place.records.eventsAfter(page.run().session.$state.get().run.id, 0)).events

async function workToTheEnd(page: Page): Promise<void> {
  const { session, conductor } = page.run()
  for (let turn = 0; turn < 200; turn += 1) {
    const { run, course } = session.$state.get()
    if (run.status === 'finished') return
    const words = wordsFor(course, conductor.$call.get())
    for (const one of words) await say(place, page, one)
    if (conductor.$asking.get()?.kind === 'is-that-so') await say(place, page, 'yes')
    await place.pass(words.length === 0 ? 10_000 : 3000)
  }
  throw new Error('The run never ends.')
}

test('every line that sounds and every word that meant something reaches the server, in few pieces', async () => {
  const page = await place.start()
  await workToTheEnd(page)
  await place.pass(PIECE_MS)
  const lines = linesIn(await stored(page))
  const said = lines.filter(({ who }) => who === 'sidecall').map(({ text }) => text)
  const spoken = page.mouth.said.map(({ text }) => text.replace(/\W+$/, ''))
  expect(said.length).toBe(spoken.length)
  expect(said.some((text) => text?.startsWith('Left. Fill the hopper'))).toBe(true)
  expect(lines.filter(({ who }) => who === 'operator').map(({ text }) => text)).toContain('all done')
  expect(spokenIn(await stored(page)).length).toBeLessThan(lines.length / 4)
  expect(lines.map(({ at }) => at)).toEqual(lines.map(({ at }) => at).toSorted((a, b) => a - b))
  page.close()
})

test('it changes nothing of the run, and stands in the record and its table', async () => {
  const page = await place.start()
  await workToTheEnd(page)
  await place.pass(PIECE_MS)
  const { course, events, run } = page.run().session.$state.get()
  const silent = events.filter(({ type }) => type !== 'spoken')
  expect(silent.length).toBeLessThan(events.length)
  expect(replay(course, run.id, events)).toEqual(replay(course, run.id, silent))
  const record = makeRecord(course, events)
  if (!record) throw new Error('There is a record.')
  expect(record.said.map(({ text, by }) => [text, by])).toEqual(linesIn(events).map(({ text }) => [text, 'Ada']))
  const table = recordsCsv([record], { words: recordWordsEn, language: 'en' })
  expect(table).toContain(',heard,all done,')
  page.close()
})

test('what meant nothing here stays on this screen alone', async () => {
  const page = await place.start()
  await place.pass(3000)
  await say(place, page, 'did you see the game on sunday')
  expect(page.run().conductor.$transcript.get()).toContainEqual(
    expect.objectContaining({ who: 'operator', text: 'did you see the game on sunday' })
  )
  await place.pass(PIECE_MS)
  const heard = linesIn(await stored(page)).filter(({ who }) => who === 'operator')
  expect(heard).toMatchObject([{ text: null }])
  expect(JSON.stringify(await stored(page))).not.toContain('sunday')
  page.close()
})

test('a page that is loaded again shows what was said before', async () => {
  const page = await place.start()
  await place.pass(3000)
  await say(place, page, 'all done')
  await place.pass(PIECE_MS)
  const before = linesIn(eventsOf(page))
  page.close()
  const again = await place.open()
  await place.pass(1500)
  expect(again.run().conductor.$transcript.get().slice(0, before.length)).toEqual(before)
  again.close()
})

test('while the disk is full the lines wait', async () => {
  const page = await place.start()
  await place.pass(PIECE_MS)
  const kept = linesIn(eventsOf(page)).length
  page.log.failAll('full')
  await say(place, page, 'how long')
  await place.pass(PIECE_MS)
  expect(linesIn(eventsOf(page)).length).toBe(kept)
  page.log.failAll(null)
  await say(place, page, 'say again')
  await place.pass(PIECE_MS)
  const heard = linesIn(eventsOf(page)).filter(({ who }) => who === 'operator')
  expect(heard.map(({ text }) => text)).toEqual(['how long', 'say again'])
  page.close()
})

test('the last words of a run are kept at once, and nothing after them: somebody may be about to sign', async () => {
  const page = await place.start()
  await workToTheEnd(page)
  await place.pass(6000)
  const events = eventsOf(page)
  expect(events.at(-1)?.type).toBe('spoken')
  expect(linesIn(events).at(-1)?.who).toBe('sidecall')
  await say(place, page, 'say again')
  await place.pass(PIECE_MS)
  expect(eventsOf(page)).toEqual(events)
  page.close()
})
