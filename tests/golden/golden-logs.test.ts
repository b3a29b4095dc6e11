/**
 * Logs as they were once kept, with the state they must go on meaning. What is in shops is never rewritten, so these
 * files are never edited: a program that reads them differently is wrong. New kinds of events get a log of their own.
 */
import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it, test } from 'vitest'
import { layOut } from '../../src/core/procedure/course.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { makeRecord } from '../../src/core/record/make-record.ts'
import { readEvent } from '../../src/core/record/wire.ts'
import { replay } from '../../src/core/run/reduce.ts'
import { FIRST_HANDS, handsOf } from '../../src/core/run/run.ts'
import { wrongIn } from '../helpers/run-oracle.ts'

const file = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8')

/** SHA-256 of each file at the time it was kept. */
const KEPT: Readonly<Record<string, string>> = {
  'first-run.jsonl': '60d157a581d4651d67a29d2206b9f130719da1548f5bd532917bc658845f30f2',
  'first-run.procedure.json': '752158f8d2bc0093a5936a378f93b80d90fbe74e068b7fd9c44d98c6d834dcaa',
  'first-run.state.json': 'e3a2e36d589029d2715d20df764ee585bf76ae7e04105a7858fa2a36326c548b',
  'lost-entries.jsonl': '500ad2d585b007c7bd1a5137605ad0b86a05565eb4f6f7743802784979e5cbec',
  'lost-entries.procedure.json': '4630fd61e6ade9307332d3defc67a0c21844c925ff850ca3511649cb295d64f1',
  'lost-entries.state.json': '7f22cdddd4921e56ad605beee1baca00bd3ca7c9f1ab910cda5601ec58fdaf6d',
  'spoken-words.jsonl': '0b62b8b32d1e0ef3ea5bdc8e354f47e670f80ea6d46458f21feb3fd6194dfaa6',
  'spoken-words.procedure.json': '0ac66993cce101de03f618957a134585b5865f5c8f6dd87bcc143caa50872083',
  'spoken-words.state.json': '5eb9c11498034d4d088d00587bd8d4fdafd943d6e48500f144705e253ec01fcc'
}

test('no file was edited, and none is left out', () => {
  const names = readdirSync(new URL('.', import.meta.url)).filter((name) => !name.endsWith('.ts'))
  const hashes = names.map((name) => [name, createHash('sha256').update(file(name)).digest('hex')])
  expect(Object.fromEntries(hashes)).toEqual(KEPT)
})

describe.each(['first-run', 'lost-entries', 'spoken-words'])('%s', (name) => {
  const course = layOut(JSON.parse(file(`${name}.procedure.json`)) as Procedure)
  /** Later programs may know more of a run; nothing of this may change. */
  const state = JSON.parse(file(`${name}.state.json`)) as object
  const events = file(`${name}.jsonl`)
    .trimEnd()
    .split('\n')
    .map((line) => {
      const read = readEvent(JSON.parse(line))
      if (read.kind === 'malformed') throw new Error(`${read.why}: ${line}`)
      return read.event
    })
  const played = (order: typeof events) => {
    const { progress, setAside, ...rest } = replay(course, events[0]?.runId ?? '', order)
    const { name: operator, focus } = handsOf({ ...rest, progress, setAside }, FIRST_HANDS)
    const said = makeRecord(course, order)?.said
    const ids = { progress: progress.map(({ id }) => id), setAside: setAside.map(({ id }) => id) }
    return { ...rest, operator, focus, ...ids, said }
  }

  it('means what it meant', () => {
    expect(played(events)).toMatchObject(state)
  })

  it('means the same in another order of arrival, some of it twice', () => {
    expect(played([...events.slice(30), ...events, ...events.slice(0, 5)].reverse())).toEqual(played(events))
  })

  it('keeps to its procedure in the eyes of a judge that knows nothing of our state', () => {
    const { setAside } = replay(course, '', events)
    const counted = events.filter((event) => !setAside.includes(event)).sort((a, b) => a.at - b.at || a.seq - b.seq)
    expect(counted.length).toBeGreaterThan(events.length / 2)
    expect(wrongIn(course.procedure, counted)).toEqual([])
  })
})
