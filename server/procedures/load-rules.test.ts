import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it, test } from 'vitest'
import { withHead } from '../../tests/helpers/a-procedure.ts'
import { memoryRecords } from '../storage/memory-records.ts'
import { loadProcedures } from './load-procedures.ts'
import { loadRules } from './load-rules.ts'

const SHIPPED = fileURLToPath(new URL('../../procedures/rules', import.meta.url))

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-rules-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const shipped = () => cpSync(SHIPPED, join(folder, 'rules'), { recursive: true })
const write = (file: string, contents: string | Uint8Array) => writeFileSync(join(folder, file), contents)
const load = () => loadRules(join(folder, 'rules'))
const chosen = async () => {
  const loaded = await load()
  if (loaded.kind === 'faulty') throw new Error(JSON.stringify(loaded.faults))
  return { rules: loaded.shop.ruleSets.map(({ id }) => id), labels: loaded.shop.labels.map(({ id }) => id) }
}
const told = async () =>
  (await load()).faults.map(({ file, problems }) => `${file}:${problems[0]?.line} ${problems[0]?.what}`)

describe('the rules of a shop', () => {
  it('come with the program', async () => {
    shipped()
    expect(await told()).toEqual([])
    expect(await chosen()).toEqual({ rules: ['us-food-code'], labels: ['our-sanitizer', 'our-quat'] })
  })

  it('are the chosen set and those that fill its gaps', async () => {
    shipped()
    write('rules/chosen.yaml', 'rules: california\n')
    expect(await chosen()).toEqual({ rules: ['california', 'us-food-code'], labels: [] })
  })

  test('are none where there is no folder, or nothing was chosen', async () => {
    expect(await chosen()).toEqual({ rules: [], labels: [] })
    shipped()
    rmSync(join(folder, 'rules/chosen.yaml'))
    expect(await chosen()).toEqual({ rules: [], labels: [] })
  })

  test.each([
    ['rules: nowhere\n', 'rules/chosen.yaml:1 "nowhere" is no rule set of a jurisdiction that can be read here.'],
    ['rules: us-food-code\nlabels: [soap]\n', 'rules/chosen.yaml:2 "soap" is no label that can be read here.'],
    ['rules: us-food-code\nlabel: soap\n', 'rules/chosen.yaml:2 "label" is not a key that can be used here.'],
    ['labels: []\n', 'rules/chosen.yaml:1 "rules" is missing.'],
    ['', 'rules/chosen.yaml:1 The file is empty.'],
    [new Uint8Array([0xff, 0xfe]), 'rules/chosen.yaml:null The file is not in UTF-8.']
  ])('are refused when the choice is %j', async (text, what) => {
    shipped()
    write('rules/chosen.yaml', text)
    expect(await told()).toEqual([what])
    expect((await load()).kind).toBe('faulty')
  })

  test('a set that is not in use may be faulty; one that is may not', async () => {
    shipped()
    write('rules/maryland.yaml', 'rules: maryland\nkind: nothing\n')
    expect(await told()).toHaveLength(1)
    expect(await chosen()).toEqual({ rules: ['us-food-code'], labels: ['our-sanitizer', 'our-quat'] })
    write('rules/chosen.yaml', 'rules: maryland\n')
    expect((await load()).kind).toBe('faulty')
  })

  test('two files with one id are told about, and the first one counts', async () => {
    shipped()
    write(
      'rules/zz.yaml',
      'rules: california\nkind: jurisdiction\ntitle: Other\nlimits: []\n'.replace('limits: []', DUTY)
    )
    expect(await told()).toEqual(['rules/zz.yaml:null It has the id "california" of another file.'])
  })
})

const DUTY = 'duties:\n  - { say: Wash., source: Ours, edition: none, status: read }'

const reading = (least: number) =>
  withHead(
    `  - {stage: A, steps: [{step: a, say: Dip., hands: 5 s, read: {question: What?, reading: strength, of: chlorine, unit: ppm, at least: ${least}, source: Ours, if not: [Mix.]}}]}`
  )

describe('what is published', () => {
  const shop = () => {
    const records = memoryRecords()
    const titles = async () => {
      const [first] = await records.currentProcedures()
      const check = first?.procedure.stages[0]?.steps[0]?.check
      return check?.kind === 'reading' ? (check.heldTo ?? []).map(({ title }) => title) : null
    }
    return {
      load: async () => (await loadProcedures(folder, records, 0)).faults,
      titles,
      current: () => records.currentProcedures()
    }
  }

  it('holds the rules that were chosen, and another choice is another version', async () => {
    shipped()
    write('a.yaml', reading(50))
    const { load, titles, current } = shop()
    expect(await load()).toEqual([])
    expect(new Set(await titles())).toEqual(
      new Set(['US model Food Code', 'Example Sanitizer 8.25 % (invented product)'])
    )
    const before = (await current())[0]?.hash
    write('rules/chosen.yaml', 'rules: california\n')
    expect(await load()).toEqual([])
    expect((await titles())?.[0]).toMatch(/California/)
    expect((await current())[0]?.hash).not.toBe(before)
  })

  it('stays as it was while the choice cannot be read', async () => {
    shipped()
    write('a.yaml', reading(50))
    const { load, current } = shop()
    await load()
    const before = (await current())[0]?.hash
    write('a.yaml', reading(60))
    write('rules/chosen.yaml', 'rules: nowhere\n')
    expect((await load()).map(({ file }) => file)).toEqual(['rules/chosen.yaml'])
    expect((await current())[0]?.hash).toBe(before)
  })

  it('is refused where acid meets chlorine, with its line', async () => {
    mkdirSync(join(folder, 'rules'))
    const solution = (id: string, chemical: string) =>
      `  - {id: ${id}, name: N, amount: '1', per: side, chemical: ${chemical}, directions: Mix.}`
    const steps = ['descaler', 'bleach'].map((id) => `      - {step: use-${id}, say: Pour., hands: 5 s, use: [${id}]}`)
    write(
      'a.yaml',
      withHead(
        `  - stage: A\n    steps:\n${steps.join('\n')}`,
        `solutions:\n${solution('descaler', 'acid')}\n${solution('bleach', 'hypochlorite')}`
      )
    )
    const { load, current } = shop()
    expect(await load()).toEqual([
      {
        file: 'a.yaml',
        problems: [{ line: 16, what: expect.stringContaining('chlorine gas'), mend: expect.stringMatching(/^Rinse/) }]
      }
    ])
    expect(await current()).toEqual([])
  })
})
