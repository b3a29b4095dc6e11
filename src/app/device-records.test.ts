import { expect, test } from 'vitest'
import { aProcedure, SMALL } from '../../tests/helpers/a-procedure.ts'
import { closedRun } from '../../tests/helpers/closed-run.ts'
import { memoryStorage } from '../../tests/helpers/memory-event-log.ts'
import { counting } from '../../tests/helpers/stamping.ts'
import type { RunEvent } from '../core/run/event.ts'
import { runsOfDevice } from './device-records.ts'

test('a run is complete once its end counts, and open again where another device shows that it does not', async () => {
  const log = memoryStorage().open()
  const run = closedRun('a')
  const [begun] = run
  if (begun?.type !== 'run-started') throw new Error('It does not begin.')
  await log.keepProcedure({ hash: begun.procedureHash, procedure: aProcedure(SMALL) })
  await log.append(run)
  const status = async () => (await runsOfDevice({ log })).map(({ listing }) => listing.status)
  expect(await status()).toEqual(['complete'])
  const stamp = counting('phone')((run.at(-1)?.at ?? 0) - 5000)
  const problem: RunEvent = { ...stamp({ type: 'problem-reported', lane: 'left', text: 'It drips.' }), runId: 'a' }
  await log.receive([problem])
  expect(await status()).toEqual(['open'])
})
