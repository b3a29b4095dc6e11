/** What is due in a shop, from the store. */
import { dueNow, type KnownProcedure, type PastRun } from '../../src/core/due/due-now.ts'
import type { Schedule } from '../../src/core/due/schedule.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import { machineName } from '../../src/core/procedure/machine-name.ts'
import { wornParts } from '../../src/core/record/wear.ts'
import { DEFAULTS, planFor } from '../../src/core/plan/plan.ts'
import { wholeProblem } from '../../src/core/plan/problem-of-run.ts'
import type { DueList, WearDue } from '../../src/ports/records.ts'
import type { Records, RunRow, StoredProcedure } from '../storage/records.ts'
import type { WearBook } from './wear-book.ts'

/** What a procedure takes never changes, and takes a while to work out. */
const needs = new WeakMap<Records, Map<string, number | null>>()

export interface DueAsked {
  /** Only the runs of this site count; null for a server of one shop. */
  readonly site: string | null
  /** IANA zone for machines without a record. */
  readonly zone: string
  /** Trusted epoch ms. */
  readonly now: number
}

export interface DueParts {
  readonly records: Records
  readonly schedule: Schedule
  readonly wear: WearBook
}

export async function whatIsDue(parts: DueParts, { site, zone, now }: DueAsked): Promise<DueList> {
  const { records, schedule } = parts
  const rows = (await records.runs(Number.MAX_SAFE_INTEGER)).filter(
    ({ started }) => site === null || started.site === site
  )
  const [current, putAway] = await Promise.all([records.currentProcedures(), records.allPutAway()])
  const away = new Set(putAway.map(({ id }) => id))
  const duties = schedule.duties.filter(({ procedure }) => !away.has(procedure))
  const procedures = current.map((stored) => known(records, stored))
  return {
    duties: dueNow({ schedule: { duties }, procedures, runs: rows.map(pastRun), zone }, now),
    wear: await wearDue(parts, current, rows, now)
  }
}

/** Of each machine that has been worked at, the parts of what is done there now. */
async function wearDue(
  { wear }: DueParts,
  current: readonly StoredProcedure[],
  rows: readonly RunRow[],
  now: number
): Promise<readonly WearDue[]> {
  const due = new Map<string, WearDue>()
  for (const { procedure } of current) {
    if (!procedure.parts.some((part) => part.wear)) continue
    const machines = new Set(
      rows.flatMap(({ started }) => (started.procedureId === procedure.id ? [started.machine] : []))
    )
    for (const machine of machines) {
      for (const { part, lane, worn, age } of wornParts(procedure, await wear.agesAt(machine), now)) {
        const { since, isKnown, runs } = age
        due.set(JSON.stringify([machine, part.id, lane]), {
          machine,
          part: part.name,
          lane,
          worn,
          since,
          isKnown,
          runs
        })
      }
    }
  }
  return [...due.values()]
}

function pastRun({ runId, started, open, ended }: RunRow): PastRun {
  return {
    runId,
    procedure: started.procedureId,
    machine: started.machine,
    zone: started.zone,
    startedAt: started.at,
    doneAt: ended?.type === 'run-finished' ? ended.at : null,
    open
  }
}

function known(records: Records, { hash, procedure }: StoredProcedure): KnownProcedure {
  const worked = needs.get(records) ?? new Map<string, number | null>()
  needs.set(records, worked)
  let needsMs = worked.get(hash)
  if (needsMs === undefined) {
    const planned = planFor(wholeProblem(layOut(procedure)), DEFAULTS)
    needsMs = planned.kind === 'plan' ? planned.plan.finish : null
    worked.set(hash, needsMs)
  }
  const { id, title, sides } = procedure
  return { id, title, sides: sides.map(({ name }) => name), machine: machineName(procedure), needsMs }
}
