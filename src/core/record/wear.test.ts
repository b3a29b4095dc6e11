import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { aProcedure, withHead } from '../../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE } from '../../../tests/helpers/a-run.ts'
import { layOut } from '../procedure/course.ts'
import { MACHINE } from '../procedure/procedure.ts'
import { partAges, wearInRun, wornness, wornParts, type WearInRun } from './wear.ts'

const DAY = 86_400_000
const PROCEDURE = aProcedure(
  withHead(
    '  - {stage: A, steps: [{step: wipe, on: bench, say: Wipe it., hands: 10 s}]}',
    `parts:
  - {id: seal, name: Seal, per: side, count: 1, care: grease, replace after: {days: 90, runs: 3}}
  - {id: blade, name: Blade, per: machine, count: 2, care: dry, replace after: {days: 30}}
  - {id: cover, name: Cover, per: machine, count: 1, care: clean}`
  )
)

function aRun(at: number, ...replaced: readonly { readonly part: string; readonly lane: string }[]): WearInRun {
  const run = carriedRun(layOut(PROCEDURE), at).do(
    ...replaced.map((place) => ({ type: 'replace-part', ...place }) as const)
  )
  return wearInRun(PROCEDURE, run.do(DONE).events())
}

test('every side has a part of its own, what is no wearing part has none', () => {
  expect(partAges([aRun(DAY)])).toEqual([
    { part: 'seal', lane: 'left', since: DAY, isKnown: false, runs: 1 },
    { part: 'seal', lane: 'right', since: DAY, isKnown: false, runs: 1 },
    { part: 'blade', lane: MACHINE, since: DAY, isKnown: false, runs: 1 }
  ])
})

test('a new part begins anew on its side only, and the run it was put in counts for the old one', () => {
  const ages = partAges([aRun(4 * DAY), aRun(3 * DAY, { part: 'seal', lane: 'left' }), aRun(2 * DAY)])
  expect(ages[0]).toEqual({ part: 'seal', lane: 'left', since: 3 * DAY, isKnown: true, runs: 1 })
  expect(ages[1]).toEqual({ part: 'seal', lane: 'right', since: 2 * DAY, isKnown: false, runs: 3 })
})

test('what was taken back, and a part that nobody knows, count for nothing', () => {
  const run = carriedRun(layOut(PROCEDURE), DAY).do(
    { type: 'replace-part', part: 'seal', lane: 'left' },
    { type: 'take-back' },
    { type: 'replace-part', part: 'cover', lane: MACHINE },
    { type: 'replace-part', part: 'blade', lane: 'left' }
  )
  expect(run.events().filter(({ type }) => type === 'refused')).toHaveLength(2)
  expect(partAges([wearInRun(PROCEDURE, run.events())]).every(({ isKnown }) => !isKnown)).toBe(true)
})

describe('how worn', () => {
  it.each([
    [89, 0, 'soon'],
    [90, 0, 'due'],
    [1, 3, 'due'],
    [80, 2, 'fine'],
    [0, 0, 'fine']
  ] as const)('%i days and %i runs: %s', (days, runs, worn) => {
    expect(wornness({ days: 90, runs: 3 }, { since: 0, runs }, days * DAY)).toBe(worn)
  })

  it('never gets less as time and runs go on', () => {
    const LEVELS = ['fine', 'soon', 'due']
    const some = fc.option(fc.integer({ min: 1, max: 400 }))
    fc.assert(
      fc.property(some, some, fc.nat(500), fc.nat(500), fc.nat(50), fc.nat(50), (days, runs, day, run, later, more) => {
        const wear = { days, runs }
        const now = wornness(wear, { since: 0, runs: run }, day * DAY)
        const then = wornness(wear, { since: 0, runs: run + more }, (day + later) * DAY)
        expect(LEVELS.indexOf(then)).toBeGreaterThanOrEqual(LEVELS.indexOf(now))
      })
    )
  })
})

test('the due ones come first', () => {
  const ages = partAges([aRun(0, { part: 'seal', lane: 'left' })])
  const worn = wornParts(PROCEDURE, ages, 85 * DAY)
  expect(worn.map(({ part, lane, worn: state }) => `${part.id} ${lane} ${state}`)).toEqual([
    `blade ${MACHINE} due`,
    'seal left soon',
    'seal right soon'
  ])
})
