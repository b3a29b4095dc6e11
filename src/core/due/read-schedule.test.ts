import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { scheduleSchemaText } from '../../../tests/due/schedule-schema.ts'
import { shipped } from '../../../tests/procedures/shipped-files.ts'
import { readSchedule } from './read-schedule.ts'

const folder = new URL('../../../procedures/due/', import.meta.url)
const file = (name: string) => readFileSync(new URL(name, folder), 'utf8')
const REST = '    source: a\n    edition: b\n    status: memory\n'
const why = (text: string) => {
  const read = readSchedule(text)
  return read.kind === 'read' ? 'taken' : read.problems.map(({ line, what }) => `${line}: ${what}`).join(' ')
}

describe('the schedule that comes along', () => {
  const read = readSchedule(file('schedule.yaml'))
  if (read.kind === 'faulty') throw new Error(JSON.stringify(read.problems))
  const { duties } = read.schedule

  test('names procedures that there are', () => {
    for (const duty of duties) {
      const named = [duty.procedure, ...('opens' in duty ? duty.opens : []), ...('after' in duty ? duty.after : [])]
      for (const id of named) expect(shipped(id).id).toBe(id)
    }
  })

  test('and the example in its guide are in the form of their schema', () => {
    expect(file('schedule.schema.json')).toBe(scheduleSchemaText())
    const isSchedule = new Ajv2020({ strict: true }).compile(JSON.parse(file('schedule.schema.json')) as object)
    expect(isSchedule(parse(file('schedule.yaml'))), JSON.stringify(isSchedule.errors)).toBe(true)
    const example = /```yaml\n([\s\S]*?)```/.exec(file('README.md'))?.[1] ?? ''
    expect(isSchedule(parse(example))).toBe(true)
    expect(readSchedule(example).kind).toBe('read')
  })
})

describe('a schedule', () => {
  test('gives each kind of line as it was meant', () => {
    const read = readSchedule(
      `due:\n  - do: a\n    every: 2 weeks\n${REST}  - do: b\n    each day of use by: "23:30"\n    if not: must not be used\n${REST}`
    )
    expect(read).toMatchObject({
      kind: 'read',
      schedule: {
        duties: [
          { kind: 'every', procedure: 'a', everySeconds: 1_209_600, otherwise: 'overdue', source: 'a' },
          { kind: 'day-of-use', procedure: 'b', by: '23:30', opens: [], otherwise: 'must-not-be-used' }
        ]
      }
    })
  })

  test.each([
    [`due:\n  - do: a\n${REST}`, /^2: It does not say when/],
    [`due:\n  - do: a\n    every: 4 hours\n    each day of use by: "06:00"\n${REST}`, /^2: It says twice/],
    [`due:\n  - do: a\n    before use by: "06:00"\n${REST}`, /^2: after: belongs/],
    [`due:\n  - do: a\n    every: 4 hours\n    in use after: [b]\n${REST}`, /^2: in use after: belongs/],
    [`due:\n  - do: a\n    every: often\n${REST}`, /^3: /],
    [`due:\n  - do: a\n    each day of use by: "25:00"\n${REST}`, /^3: /],
    [`due:\n  - do: a\n    every: 4 hours\n`, /source/],
    ['due: [', /^1/],
    ['', /^1/]
  ])('%j is refused with its line', (text, reason) => {
    expect(why(text)).toMatch(reason)
  })
})
