/** Runs that are over, sent to the real server's app as a device sends them. */
import { canonicalJson, sha256 } from '../../server/procedures/content-hash.ts'
import type { Records } from '../../server/storage/records.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { aProcedure, SMALL } from './a-procedure.ts'
import { carriedRun, DONE } from './a-run.ts'
import { NOW } from './an-app.ts'

const procedure = aProcedure(SMALL)
const SMALL_HASH = sha256(canonicalJson(procedure))

/** With more in its head, where a test asks for it; returns the hash. */
export async function publishSmall(records: Records, rest = ''): Promise<string> {
  const source = SMALL.replace('\nstages:', `${rest}\nstages:`)
  const version = aProcedure(source)
  const text = canonicalJson(version)
  await records.publish({ hash: sha256(text), procedure: version, canonical: text, source }, NOW)
  return sha256(text)
}

/** One operator does it all, and tries to cut a wait short. `at` in epoch ms. */
export function closedRun(runId: string, at = NOW, site = 'Corner shop', machine = 'Freezer 1'): readonly RunEvent[] {
  const run = carriedRun(layOut(procedure), at)
  run.pass(30).do(DONE).pass(20).do(DONE).do({ type: 'choose-lane', lane: 'left' })
  for (const lane of ['left', 'right']) {
    run.pass(120).do({ type: 'acknowledge-wait', lane }).do({ type: 'choose-lane', lane })
    run.pass(10).do({ type: 'answer', answer: { kind: 'yes-no', value: 'yes' } })
  }
  run.pass(10).do({ type: 'confirm', how: 'phrase' })
  if (run.run().status !== 'finished') throw new Error(`The run is ${run.run().status}.`)
  return run.events().map((event): RunEvent => {
    const own = { ...event, id: `${runId}-${event.id}`, runId }
    return own.type === 'run-started' ? { ...own, site, machine, procedureHash: SMALL_HASH } : own
  })
}
