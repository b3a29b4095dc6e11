/** The page for authors: its example works, its list of keys is whole, and a mistake is reported where it is. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import { procedureReport } from './procedure-report.ts'
import { procedureSchemaText } from './procedure-schema.ts'
import { mustRead, stepsOf } from './shipped-files.ts'

const readme = readFileSync(new URL('../../procedures/README.md', import.meta.url), 'utf8')
const [example = '', ...snippets] = [...readme.matchAll(/```yaml\n(.*?)```/gs)].map(([, code = '']) => code)

function keysIn(schema: unknown): string[] {
  if (schema === null || typeof schema !== 'object') return []
  const properties = 'properties' in schema && schema.properties !== null ? Object.keys(Object(schema.properties)) : []
  return [...properties, ...Object.values(schema).flatMap(keysIn)]
}

describe('procedures/README.md', () => {
  it('shows an example that reads without a problem', () => {
    expect(procedureReport('example', example).lines).toEqual([
      'example reads well.',
      'still: 6 steps, about 3.6 min of work, 2 waits of 15 min in all',
      'sparkling: 7 steps, about 3.8 min of work, 2 waits of 15 min in all',
      'bench: 2 steps, about 1.8 min of work, 0 waits of 0 min in all',
      'machine: 2 steps, about 0.3 min of work, 0 waits of 0 min in all'
    ])
  })

  it('shows every kind of check, and repeats, tools, cautions, lateness and a confirming phrase', () => {
    const steps = stepsOf(mustRead('example', example))
    expect(new Set(steps.flatMap(({ check }) => (check ? [check.kind] : [])))).toEqual(
      new Set(['yes-no', 'reading', 'count'])
    )
    expect(new Set(steps.map(({ on }) => on.kind))).toEqual(new Set(['sides', 'bench', 'machine']))
    for (const shown of [
      steps.some(({ repeat }) => repeat !== null),
      steps.some(({ takes, frees }) => takes.length > 0 && frees.length > 0),
      steps.some(({ cautions }) => cautions.length > 0),
      steps.some(({ wait }) => wait?.late),
      steps.some(({ confirm }) => confirm !== null)
    ]) {
      expect(shown).toBeTruthy()
    }
  })

  it('explains every key that a file may have', () => {
    const keys = [...new Set(keysIn(JSON.parse(procedureSchemaText())))]
    expect(keys.length).toBeGreaterThan(40)
    expect(keys.filter((key) => !readme.includes(`\`${key}\``))).toEqual([])
  })

  it('shows one text in two languages the way a file takes it', () => {
    expect(snippets).toHaveLength(1)
    const oneText = (line: string) => example.replace('say: Pull the nozzle off the tap.', line.trim())
    expect(readProcedure(oneText(snippets[0] ?? '')).kind).toBe('read')
  })

  it('tells an author where a mistake is', () => {
    const wrong = example.replace('hands: 75 s', 'hands: a while')
    const line = wrong.split('\n').findIndex((text) => text.includes('a while')) + 1
    const report = procedureReport('wrong.yaml', wrong)
    expect(report.good).toBe(false)
    expect(report.lines.join('\n')).toContain(`wrong.yaml:${line}:`)
  })
})
