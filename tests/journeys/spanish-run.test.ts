/** Whole runs of shipped procedures in Spanish, by typed words alone, over the real server. */
import { afterEach, describe, expect, test } from 'vitest'
import { makeRecord } from '../../src/core/record/make-record.ts'
import { recordLines } from '../../src/core/record/record-lines.ts'
import { recordWordsEs } from '../../src/core/record/words.es.ts'
import type { Call } from '../../src/core/run/call.ts'
import { replay } from '../../src/core/run/reduce.ts'
import { kitchen, shippedProcedure, type Kitchen, type Page } from '../helpers/kitchen-page.ts'
import { wordsFor } from '../helpers/operator.ts'
import { wrongIn } from '../helpers/run-oracle.ts'

/** Words of English that Spanish does not have; names of codes and sections of law are theirs. */
const ENGLISH =
  /(?<!\p{L})(?:the|and|of|is|are|not|with|your|hands?|water|left|right|turn|pour|wait|over|parts?)(?!\p{L})/iu
const LAW = /(?:\d+ Pa\. Code|FDA Food Code|California HSC|\d+ CFR)/g

let place: Kitchen
afterEach(() => place.end())

const callOf = (page: Page): Call => page.run().conductor.$call.get()

async function workToTheEnd(page: Page): Promise<void> {
  for (let turns = 0; callOf(page).kind !== 'finished'; turns += 1) {
    if (turns > 3000) throw new Error(`No end in sight at ${JSON.stringify(callOf(page))}`)
    const { course } = page.run().session.$state.get()
    const words = wordsFor(course, callOf(page), 'es')
    if (words.length === 0) await place.pass(5000)
    for (const word of words) await page.run().conductor.hearWords([word], 'typed')
    await place.pass(250)
  }
}

describe.each(['drink-lines.yaml', 'twin-freezer-closing.yaml', 'slicer-four-hours.yaml'])('%s', (file) => {
  test('is carried out in Spanish to its end, and nothing else is said', async () => {
    place = await kitchen(shippedProcedure(file))
    const page = await place.start('Ana', ['Ana'], { Ana: 'es' })
    await workToTheEnd(page)
    const { course, events, run } = page.run().session.$state.get()
    expect(run.status).toBe('finished')
    expect(wrongIn(course.procedure, events)).toEqual([])
    const said = page.mouth.said.map(({ text }) => text)
    expect(said.length).toBeGreaterThan(100)
    expect(said.filter((text) => ENGLISH.test(text.replaceAll(LAW, '')))).toEqual([])
    expect(said.some((text) => text.startsWith('Advertencia') || text.includes('. Advertencia. '))).toBe(true)
    const lines = page
      .run()
      .conductor.$transcript.get()
      .filter(({ who }) => who === 'sidecall')
    expect(lines.filter(({ text }) => ENGLISH.test((text ?? '').replaceAll(LAW, '')))).toEqual([])

    await place.pass(20_000)
    const stored = await place.records.eventsAfter(run.id, 0)
    expect(replay(course, run.id, stored.events)).toEqual(run)
    // Records and what is due go by one name of the machine, whatever language somebody works in.
    expect(stored.events[0]).toMatchObject({ type: 'run-started', machine: course.procedure.machine['en'] })
    const record = makeRecord(course, stored.events)
    if (!record) throw new Error('There is no record.')
    const written = recordLines(record, { words: recordWordsEs, language: 'es' }).flatMap(
      ({ what, lane, kind, result }) => [...[what, lane, kind, result]]
    )
    expect(written.filter((text) => ENGLISH.test(text.replaceAll(LAW, '')))).toEqual([])
    page.close()
  }, 120_000)
})
