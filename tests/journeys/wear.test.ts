import { afterEach, expect, test } from 'vitest'
import { withHead } from '../helpers/a-procedure.ts'
import { kitchen, say, type Kitchen, type Page } from '../helpers/kitchen-page.ts'

let place: Kitchen
afterEach(() => place.end())

async function wornOn(page: Page) {
  const view = page.app.$view.get()
  await page.app.choose((view.kind === 'choose' && view.offers?.procedures[0]?.hash) || '')
  const gather = page.app.$view.get()
  if (gather.kind !== 'gather') throw new Error(`The page shows ${gather.kind}.`)
  const worn = await page.app.wornParts(gather.course)
  return worn.map(({ part, lane, worn: state, age }) => `${part.id} ${lane} ${state} ${age.runs}`)
}

async function carryOut(...words: readonly string[]): Promise<void> {
  const page = await place.start()
  await place.pass(1000)
  for (const word of words) await say(place, page, word)
  expect(page.run().session.$state.get().run.status).toBe('finished')
  await place.pass(40_000)
  page.close()
}

test('a part falls due by its runs, is replaced by voice, and is new again on every device', async () => {
  place = await kitchen(
    withHead(
      '  - {stage: A, steps: [{step: wipe, on: bench, say: Wipe it., hands: 10 s}]}',
      `parts:
  - {id: seal, name: Seal, per: side, count: 1, care: grease, replace after: {runs: 2}}`
    )
  )
  await carryOut('all done')
  await carryOut('all done')
  const worn = ['seal left due 2', 'seal right due 2']
  const first = await place.openElsewhere()
  expect(await wornOn(first)).toEqual(worn)
  // What was heard last is known without the server too.
  place.serverAway(true)
  expect(await wornOn(first)).toEqual(worn)
  first.close()
  place.serverAway(false)

  await carryOut('part replaced', 'one', 'all done')
  const second = await place.openElsewhere()
  expect(await wornOn(second)).toEqual(['seal right due 3'])
  second.close()
}, 120_000)
