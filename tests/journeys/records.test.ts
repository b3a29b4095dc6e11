/** From a run at the machine to a signed record: the real app and the real server, with the network coming and going. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Desk, RecordsDesk, ShownRecord } from '../../src/app/records-desk.ts'
import { checkExport } from '../../src/core/record/check-export.ts'
import { recordWordsEn } from '../../src/core/record/words.en.ts'
import { recordWordsEs } from '../../src/core/record/words.es.ts'
import { SMALL } from '../helpers/a-procedure.ts'
import { OWNER } from '../helpers/shop-people.ts'
import { wordsFor } from '../helpers/operator.ts'
import { kitchen, say, type Kitchen, type Page } from '../helpers/kitchen-page.ts'
import { CHECK_TOOLS } from '../record/check-tools.ts'

const ENGLISH = { words: recordWordsEn, language: 'en' }
const SPANISH = { words: recordWordsEs, language: 'es' }

let place: Kitchen
beforeEach(async () => {
  place = await kitchen(SMALL)
})
afterEach(() => place.end())

async function wholeRun(page: Page): Promise<string> {
  const { session, conductor } = page.run()
  for (let turn = 0; turn < 100; turn += 1) {
    const { run, course } = session.$state.get()
    if (run.status === 'finished') return run.id
    const words = wordsFor(course, conductor.$call.get())
    for (const one of words) await say(place, page, one)
    if (conductor.$asking.get()?.kind === 'is-that-so') await say(place, page, 'yes')
    await place.pass(words.length === 0 ? 10_000 : 3000)
  }
  throw new Error('The run never ends.')
}

/** Real requests take turns of the event loop, while the clock stands still. */
async function when<T>(work: Promise<T>): Promise<T> {
  const ended: string[] = []
  const done = work.finally(() => ended.push('done'))
  for (let turn = 0; turn < 400 && ended.length === 0; turn += 1) await place.pass(20)
  return done
}

async function opened(page: Page): Promise<RecordsDesk> {
  await when(page.app.backToChoice())
  await when(page.app.showRecords())
  const view = page.app.$view.get()
  if (view.kind !== 'records') throw new Error(`The page shows ${view.kind}.`)
  return view.desk
}

function listed(desk: RecordsDesk): Extract<Desk, { kind: 'list' }> {
  const shown = desk.$desk.get()
  if (shown.kind !== 'list') throw new Error(`The desk shows ${shown.kind}.`)
  return shown
}

function only(desk: RecordsDesk): ShownRecord {
  const shown = desk.$desk.get()
  const [first] = shown.kind === 'records' ? shown.shown : []
  if (!first) throw new Error('No record is shown.')
  return first
}

const notice = (desk: RecordsDesk) => {
  const shown = desk.$desk.get()
  return shown.kind === 'records' ? shown.notice : null
}

async function shown(desk: RecordsDesk): Promise<void> {
  await when(desk.show(listed(desk).rows.map(({ listing }) => listing)))
}

describe('the record of a run', () => {
  test('is read, added to and signed; what comes after the signature asks for another', async () => {
    const page = await place.start()
    const runId = await wholeRun(page)
    const desk = await opened(page)
    expect(listed(desk)).toMatchObject({
      failure: null,
      rows: [{ onlyHere: false, listing: { runId, status: 'complete', review: 'unsigned' } }]
    })
    await shown(desk)
    expect(only(desk)).toMatchObject({ unsent: 0, record: { operators: ['Ada'], status: 'complete' } })
    const before = only(desk).record.entries

    await when(desk.add(runId, 'Sue', { type: 'noted', field: 'mix-lot', value: '17' }))
    expect(notice(desk)).toEqual({ kind: 'kept' })
    expect(only(desk)).toMatchObject({
      unsent: 0,
      record: { entries: before + 1, notes: [{ by: 'Sue', value: '17' }] }
    })

    await when(desk.sign(runId, 'review'))
    expect(notice(desk)).toMatchObject({ kind: 'not-signed', failure: { title: 'This shop has no owner yet' } })
    await place.ownedHere()
    await when(desk.sign(runId, 'review'))
    expect(notice(desk)).toEqual({ kind: 'signed' })
    expect(only(desk).record).toMatchObject({
      review: 'signed',
      signatures: [{ by: OWNER.name, meaning: 'review', coversAll: true }]
    })

    const [check] = only(desk).record.checks
    const now = { kind: 'yes-no', value: 'no' } as const
    if (!check) throw new Error('There was a question.')
    await when(
      desk.add(runId, 'Sue', { type: 'amended', entry: check.id, was: check.answer, now, reason: 'Misheard.' })
    )
    expect(only(desk).record).toMatchObject({ review: 'changed-since' })
    expect(only(desk).record.checks[0]).toMatchObject({ answer: check.answer, amendments: [{ now, good: false }] })
  })

  test('is not signed by somebody who has seen less than there is', async () => {
    const page = await place.start()
    const runId = await wholeRun(page)
    const desk = await opened(page)
    await shown(desk)
    const elsewhere = await place.openElsewhere()
    const other = await opened(elsewhere)
    await shown(other)
    await when(other.add(runId, 'Ben', { type: 'noted', field: 'remark', value: 'The seal leaks.' }))
    await place.ownedHere()
    await when(desk.sign(runId, 'review'))
    expect(notice(desk)).toMatchObject({ kind: 'not-signed', failure: { title: 'The record has changed' } })
    expect(only(desk).record).toMatchObject({ review: 'unsigned', notes: [{ value: 'The seal leaks.' }] })
    await when(desk.sign(runId, 'review'))
    expect(notice(desk)).toEqual({ kind: 'signed' })
  })
})

describe('with the server away', () => {
  test('a run is done, listed and taken away from the device; it is signed when the server is back', async () => {
    const page = await place.start()
    place.serverAway(true)
    const runId = await wholeRun(page)
    const desk = await opened(page)
    expect(listed(desk)).toMatchObject({
      failure: { kind: 'unreachable' },
      rows: [{ onlyHere: true, listing: { runId } }]
    })
    const standing = desk.$standing.get()
    expect(standing).toMatchObject({ kind: 'known', unsent: { age: 'young' }, refused: [] })

    const rows = listed(desk).rows.map(({ listing }) => listing)
    const json = await when(desk.take(rows, 'json', ENGLISH))
    const checked = checkExport(JSON.parse(json.text), CHECK_TOOLS)
    expect(checked).toMatchObject({ kind: 'sound', entries: 0, loose: rows[0]?.entries })
    const csv = await when(desk.take(rows, 'csv', ENGLISH))
    expect(csv.text).toContain('Ada')
    const spanish = await when(desk.take(rows, 'csv', SPANISH))
    // What programs go by stays; what people read is in their language.
    expect(spanish.text.split('\n')[0]).toBe(csv.text.split('\n')[0])
    expect(spanish.text).toContain(recordWordsEs.kinds.step)
    expect(spanish.text).not.toContain(recordWordsEn.via('voice'))
    expect(csv.name).toMatch(/\.csv$/)

    await shown(desk)
    expect(only(desk).unsent).toBeNull()
    await when(desk.sign(runId, 'review'))
    expect(notice(desk)).toMatchObject({ kind: 'not-signed', failure: { kind: 'unreachable' } })

    place.serverAway(false)
    page.app.wake()
    await place.pass(20_000)
    await when(desk.list())
    expect(listed(desk)).toMatchObject({ failure: null, rows: [{ onlyHere: false }] })
    await shown(desk)
    expect(only(desk).unsent).toBe(0)
    await place.ownedHere()
    await when(desk.sign(runId, 'approval'))
    expect(only(desk).record.review).toBe('signed')
  })

  test('what waits for more than a day is old, and says so', async () => {
    const page = await place.start()
    place.serverAway(true)
    await wholeRun(page)
    const desk = await opened(page)
    expect(desk.$standing.get()).toMatchObject({ unsent: { age: 'young' } })
    place.lidClosed(0)
    await place.pass(25 * 3_600_000)
    await when(desk.look())
    expect(desk.$standing.get()).toMatchObject({ unsent: { age: 'old' } })
  })
})

test('what the server refuses stays on the device, by its name', async () => {
  const page = await place.start()
  await page.log.rejected({ id: 'event-7', why: 'seq: too small' })
  const desk = await when(page.app.records())
  await when(desk.look())
  expect(desk.$standing.get()).toMatchObject({ refused: [{ id: 'event-7', why: 'seq: too small' }] })
})
