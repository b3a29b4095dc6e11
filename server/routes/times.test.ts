import { expect, test } from 'vitest'
import { carriedRun, DONE } from '../../tests/helpers/a-run.ts'
import { anApp } from '../../tests/helpers/an-app.ts'
import { aProcedure, withHead } from '../../tests/helpers/a-procedure.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import { readTimesAnswer } from '../../src/core/record/wire-answers.ts'
import { canonicalJson, sha256 } from '../procedures/content-hash.ts'

const SOURCE = withHead('  - {stage: A, steps: [{step: wipe, say: Wipe it., hands: 1 min}]}')

async function withRun(isOver: boolean) {
  const it = anApp()
  const procedure = aProcedure(SOURCE)
  const canonical = canonicalJson(procedure)
  const hash = sha256(canonical)
  await it.records.publish({ hash, procedure, canonical, source: SOURCE }, 1)
  const run = carriedRun(layOut(procedure)).pass(80).do(DONE).pass(50)
  if (isOver) run.do(DONE)
  const events = run
    .events()
    .map((event) =>
      event.type === 'run-started' ? { ...event, procedureHash: hash, procedureId: procedure.id } : event
    )
  await it.send({ events })
  return { ...it, id: procedure.id }
}

const samplesOf = async (answer: Response) => readTimesAnswer(await answer.json())?.samples

test('tells how long each step of a run that is over took, on each lane', async () => {
  const { app, id } = await withRun(true)
  const samples = await samplesOf(await app.request(`/api/times/${id}`))
  // 50 s between the two, of which 5 go to going over.
  expect(samples?.map(({ step, seconds }) => `${step} ${seconds}`)).toEqual(['wipe 80', 'wipe 45'])
  expect(samples).toEqual(await samplesOf(await app.request(`/api/times/${id}`)))
})

test('says nothing of a run that still goes on, or of another procedure', async () => {
  const going = await withRun(false)
  expect(await samplesOf(await going.app.request(`/api/times/${going.id}`))).toEqual([])
  const over = await withRun(true)
  expect(await samplesOf(await over.app.request('/api/times/another'))).toEqual([])
})

test('only takes questions', async () => {
  const { app, id } = await withRun(true)
  await expectProblem(await app.request(`/api/times/${id}`, { method: 'POST', body: '{}' }), 405)
})
