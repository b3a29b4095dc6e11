import { expect, test } from 'vitest'
import { layOut } from '../../src/core/procedure/course.ts'
import { readWearAnswer } from '../../src/core/record/wire-answers.ts'
import { aProcedure, withHead } from '../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE } from '../../tests/helpers/a-run.ts'
import { anApp } from '../../tests/helpers/an-app.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { canonicalJson, sha256 } from '../procedures/content-hash.ts'

const SOURCE = withHead(
  '  - {stage: A, steps: [{step: wipe, on: bench, say: Wipe it., hands: 1 min}]}',
  'parts:\n  - {id: seal, name: Seal, per: machine, count: 1, care: grease, replace after: {runs: 2}}'
)

async function withRun(machine: string) {
  const it = anApp()
  const procedure = aProcedure(SOURCE)
  const canonical = canonicalJson(procedure)
  const hash = sha256(canonical)
  await it.records.publish({ hash, procedure, canonical, source: SOURCE }, 1)
  const run = carriedRun(layOut(procedure)).pass(80).do(DONE)
  const events = run
    .events()
    .map((event) => (event.type === 'run-started' ? { ...event, procedureHash: hash, machine } : event))
  await it.send({ events })
  const ages = async (named: string) =>
    readWearAnswer(await (await it.app.request(`/api/wear?machine=${encodeURIComponent(named)}`)).json())?.parts
  return { ...it, ages, startedAt: events[0]?.at }
}

test('tells how old the parts of one machine are, whatever its name', async () => {
  const { ages, startedAt } = await withRun('Twin & "left" machine?')
  const parts = [{ part: 'seal', lane: 'machine', since: startedAt, isKnown: false, runs: 1 }]
  expect(await ages('Twin & "left" machine?')).toEqual(parts)
  expect(await ages('Twin & "left" machine?')).toEqual(parts)
  expect(await ages('Another')).toEqual([])
})

test('wants to know of which machine, and only takes questions', async () => {
  const { app } = await withRun('Twin')
  await expectProblem(await app.request('/api/wear'), 400)
  await expectProblem(await app.request('/api/wear?machine=Twin', { method: 'POST', body: '{}' }), 405)
})
