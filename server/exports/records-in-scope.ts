/** The records of runs, computed anew from their events. */
import { setImmediate as turn } from 'node:timers/promises'
import { layOut, type Course } from '../../src/core/procedure/course.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { makeRecord } from '../../src/core/record/make-record.ts'
import type { RunRecord } from '../../src/core/record/run-record.ts'
import type { Records, RunRow } from '../storage/records.ts'

/** Null where the procedure version is not here. */
async function courseOf(records: Records, hash: string): Promise<Course | null> {
  const canonical = await records.procedure(hash)
  return canonical === null ? null : layOut(JSON.parse(canonical) as Procedure)
}

export async function recordsOf(records: Records, runs: readonly RunRow[]): Promise<readonly RunRecord[]> {
  const made: RunRecord[] = []
  const courses = new Map<string, Course | null>()
  for (const { runId, started } of runs) {
    const { procedureHash } = started
    const course = courses.get(procedureHash) ?? (await courseOf(records, procedureHash))
    courses.set(procedureHash, course)
    const record = course && makeRecord(course, (await records.eventsAfter(runId, 0)).events)
    if (record) made.push(record)
    // A year of them takes a while: others are served in between.
    await turn()
  }
  return made
}
