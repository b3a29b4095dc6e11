/** The page for authors of rule sets: its keys, files, rows and commands are the ones there are. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { readRuleSet } from '../../src/core/sanitizer/read-rule-set.ts'
import { judgeCommand } from './judge-command.ts'
import { mixCommand } from './mix-command.ts'
import { ruleSetSchemaText } from './rule-set-schema.ts'
import { RULE_SET_FILES } from './shipped-rule-sets.ts'

const readme = readFileSync(new URL('../../procedures/rules/README.md', import.meta.url), 'utf8')

function keysIn(schema: unknown): string[] {
  if (schema === null || typeof schema !== 'object') return []
  const properties = 'properties' in schema && schema.properties !== null ? Object.keys(Object(schema.properties)) : []
  return [...properties, ...Object.values(schema).flatMap(keysIn)]
}

function enumsIn(schema: unknown): string[] {
  if (schema === null || typeof schema !== 'object') return []
  const words = 'enum' in schema && Array.isArray(schema.enum) ? schema.enum.map(String) : []
  return [...words, ...Object.values(schema).flatMap(enumsIn)]
}

describe('procedures/rules/README.md', () => {
  it('explains every key and names every word a rule set may use', () => {
    const schema: unknown = JSON.parse(ruleSetSchemaText())
    const keys = [...new Set(keysIn(schema))]
    expect(keys.length).toBeGreaterThan(20)
    expect(keys.filter((key) => !readme.includes(`\`${key}\``))).toEqual([])
    expect(enumsIn(schema).filter((word) => !readme.includes(word))).toEqual([])
  })

  it('names every file', () => {
    expect(RULE_SET_FILES.map(({ name }) => name).filter((name) => !readme.includes(`\`${name}\``))).toEqual([])
  })

  it('shows rows that are read', () => {
    const [, rows = ''] = /```yaml\n(.*?)```/s.exec(readme) ?? []
    const written = parse(rows) as Record<string, string>[]
    expect(written).toHaveLength(3)
    for (const row of written) {
      const limit = 'time' in row ? 'contact time' : 'solution'
      const text = JSON.stringify({
        rules: 'a',
        kind: 'jurisdiction',
        title: 'A',
        limits: [{ for: 'chlorine', limit, 'any of': [row], source: 'A', edition: 'A', status: 'read' }]
      })
      expect(readRuleSet(text).kind).toBe('read')
    }
  })

  it('shows commands that work', () => {
    const lines = [...readme.matchAll(/^npm run --silent (mix|judge) -- (.*)$/gm)]
    expect(lines).toHaveLength(3)
    for (const [, name, options = ''] of lines) {
      const run = name === 'mix' ? mixCommand : judgeCommand
      expect(run(options.split(' '))).toMatchObject({ code: 0, err: '' })
    }
  })
})
