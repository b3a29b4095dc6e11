/** What must hold once everything has come together again. In words; empty when it does. */
import { canonicalJson } from '../../server/procedures/content-hash.ts'
import type { Records } from '../../server/storage/records.ts'
import type { Course } from '../../src/core/procedure/course.ts'
import { makeRecord } from '../../src/core/record/make-record.ts'
import { walk } from '../../src/core/record/walk.ts'
import { compareEvents, type RunEvent } from '../../src/core/run/event.ts'
import { replay } from '../../src/core/run/reduce.ts'
import { wrongIn } from '../helpers/run-oracle.ts'
import { LONGEST_DELAY_MS } from './faulty-network.ts'
import { reallyWaited } from './short-waits.ts'
import type { Device } from './device.ts'

export interface Aftermath {
  readonly devices: readonly Device[]
  readonly records: Records
  readonly course: Course
  readonly runId: string
  /** When each event was really made, by simulated time. */
  readonly bornAt: ReadonlyMap<string, number>
}

/** Two ways through the network, and the rounding of stamps. */
const OFF_MS = 2 * LONGEST_DELAY_MS + 1000

export interface Judged {
  readonly wrong: readonly string[]
  readonly worstShortfallMs: number
}

export async function wrongAfter({ devices, records, course, runId, bornAt }: Aftermath): Promise<Judged> {
  const wrong: string[] = []
  const chain = await records.chainOfRun(runId)
  const events = chain.map(({ canonical }) => JSON.parse(canonical) as RunEvent)
  const server = new Map(events.map((event) => [event.id, canonicalJson(event)]))
  if (server.size !== events.length) wrong.push('the server has an event twice')
  const state = canonicalJson(replay(course, runId, events))
  for (const device of devices) {
    const own = await device.events()
    if ((await device.unsent()) > 0) wrong.push(`${device.name} has still something to send`)
    for (const event of own) {
      const theirs = server.get(event.id)
      if (theirs === undefined)
        wrong.push(`${device.name} has ${event.type} ${event.id}, which the server does not have`)
      else if (theirs !== canonicalJson(event)) wrong.push(`${event.id} is another event on ${device.name}`)
    }
    if (own.length !== events.length) wrong.push(`${device.name} has ${own.length} of ${events.length} events`)
    if (canonicalJson(replay(course, runId, own)) !== state) wrong.push(`${device.name} computes another state`)
  }
  const walked = walk(course, events)
  const counted = walked.visits.filter(({ counts }) => counts !== 'set-aside').map(({ event }) => event)
  wrong.push(...wrongIn(course.procedure, counted.sort(compareEvents)))
  const record = makeRecord(course, events)
  for (const { result, actualSeconds, minSeconds, lane, step } of record?.waits ?? []) {
    if (result === 'kept' && (actualSeconds ?? 0) < minSeconds)
      wrong.push(`the wait of ${step} on ${lane} was cut short`)
  }
  const waited = reallyWaited(walked, bornAt)
  for (const { lane, step, shortMs } of waited)
    if (shortMs > OFF_MS) wrong.push(`the wait of ${step} on ${lane} was really ${shortMs} ms too short`)
  return { wrong, worstShortfallMs: Math.max(-Infinity, ...waited.map(({ shortMs }) => shortMs)) }
}
