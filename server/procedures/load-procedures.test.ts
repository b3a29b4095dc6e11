import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { withHead } from '../../tests/helpers/a-procedure.ts'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import { anApp } from '../../tests/helpers/an-app.ts'
import { memoryRecords } from '../storage/memory-records.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import { loadProcedures } from './load-procedures.ts'
import { versionOf } from './version-of.ts'

const RULES = join(import.meta.dirname, '../../procedures/rules')

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-procedures-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const write = (file: string, contents: string | Uint8Array) => writeFileSync(join(folder, file), contents)
const say = (words: string, id = 'test-machine') =>
  withHead(`  - {stage: Rinse, steps: [{step: fill, say: ${words}, hands: 30 s}]}`).replace('test-machine', id)

function shop() {
  const records = memoryRecords()
  return {
    records,
    load: async () => (await loadProcedures(folder, records, 0)).faults,
    current: async () => (await records.currentProcedures()).map(({ hash, procedure }) => ({ hash, id: procedure.id })),
    only: async () => {
      const [first, ...more] = await records.currentProcedures()
      if (!first || more.length > 0) throw new Error(`There are ${more.length + (first ? 1 : 0)} procedures.`)
      return first.hash
    }
  }
}

describe('the identity of a version', () => {
  test('is what the procedure says: order of keys, comments and quotes do not matter', async () => {
    const { load, only } = shop()
    write('a.yaml', say('Fill the hopper.'))
    await load()
    const hash = await only()
    const lines = say('Fill the hopper.').split('\n')
    const stages = lines.findIndex((line) => line.startsWith('stages:'))
    // The top keys in reverse; sides has its list below it.
    const head = ['sides:', ...lines.filter((line) => line.startsWith('  - {id'))]
    const rest = lines.slice(0, stages).filter((line) => line !== '' && !head.includes(line))
    const reordered = [...lines.slice(stages), ...head, '# the same', ...rest.toReversed()].join('\n')
    write('a.yaml', reordered.replace('title: Test', "title: 'Test'"))
    expect(await load()).toEqual([])
    expect(await only()).toBe(hash)
  })

  test('changes with every word, and the old one stays readable for ever', async () => {
    const { load, only, records } = shop()
    const hashes: string[] = []
    for (const words of ['Fill it.', 'Fill it slowly.', 'Fill it to the line.']) {
      write('a.yaml', say(words))
      expect(await load()).toEqual([])
      hashes.push(await only())
    }
    expect(new Set(hashes).size).toBe(3)
    for (const [index, words] of ['Fill it.', 'Fill it slowly.', 'Fill it to the line.'].entries()) {
      expect(await records.procedure(hashes[index] ?? '')).toContain(JSON.stringify(words))
    }
  })
})

test('a run goes on by the version it began with, whatever is published meanwhile', async () => {
  const { load, only, records } = shop()
  const { app } = anApp({ records })
  write('a.yaml', say('Fill it.'))
  await load()
  const pinned = await only()
  const started = counting()(1)({ ...STARTED, type: 'run-started', procedureHash: pinned } as typeof STARTED)
  await app.request('/api/events', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ events: [started] })
  })
  const before = await (await app.request(`/api/procedures/${pinned}`)).text()
  write('a.yaml', say('Fill it slowly.'))
  await load()
  expect(await only()).not.toBe(pinned)
  expect(await (await app.request('/api/runs')).json()).toMatchObject({ runs: [{ procedureHash: pinned }] })
  expect(await (await app.request(`/api/procedures/${pinned}`)).text()).toBe(before)
})

describe('a faulty file', () => {
  test('is told about with its line, and the earlier good version stays usable', async () => {
    const { load, current } = shop()
    write('a.yaml', say('Fill it.'))
    write('b.yaml', say('Fill it.', 'other-machine'))
    await load()
    const before = await current()
    const broken = say('Fill it.').replace('hands: 30 s', 'hands: soon')
    write('a.yaml', broken)
    write('b.yaml', say('Fill it slowly.', 'other-machine'))
    const line = broken.split('\n').findIndex((text) => text.includes('soon')) + 1
    expect(await load()).toEqual([
      { file: 'a.yaml', problems: [{ line, what: expect.any(String), mend: expect.any(String) }] }
    ])
    const after = await current()
    expect(after.find(({ id }) => id === 'test-machine')).toEqual(before.find(({ id }) => id === 'test-machine'))
    expect(after.find(({ id }) => id === 'other-machine')).not.toEqual(before.find(({ id }) => id === 'other-machine'))
  })

  test('with the id of another is named with it; the first in the order of names stands', async () => {
    const { load, only, records } = shop()
    write('a.yaml', say('From a.'))
    write('b.yml', say('From b.'))
    const faults = await load()
    expect(faults).toEqual([
      { file: 'b.yml', problems: [{ line: null, what: expect.stringContaining('a.yaml'), mend: expect.any(String) }] }
    ])
    expect(await records.procedure(await only())).toContain('From a.')
  })

  test.each([
    ['is no YAML', 'a: [1'],
    ['is empty', ''],
    ['is not in UTF-8', Uint8Array.of(...Buffer.from(say('Fill it.')), 0xe9)],
    ['holds half a character', say(String.raw`"Fill \uD83D it."`)]
  ])('that %s is told about and stops nothing else', async (_, contents) => {
    const { load, current } = shop()
    write('bad.yaml', contents)
    write('good.yaml', say('Fill it.', 'other-machine'))
    const faults = await load()
    expect(faults.map(({ file }) => file)).toEqual(['bad.yaml'])
    expect(faults[0]?.problems[0]?.what).not.toBe('')
    expect((await current()).map(({ id }) => id)).toEqual(['other-machine'])
  })

  test('that cannot be read shows no path of this machine', async () => {
    const { load } = shop()
    mkdirSync(join(folder, 'a.yaml'))
    symlinkSync(join(folder, 'gone'), join(folder, 'b.yaml'))
    const faults = await load()
    expect(faults.map(({ problems }) => problems[0]?.what)).toEqual([
      'The file cannot be read (EISDIR).',
      'The file cannot be read (ENOENT).'
    ])
    expect(JSON.stringify(faults)).not.toContain(folder)
  })
})

describe('which files count', () => {
  test('only those that end in yaml or yml, and none that is hidden', async () => {
    const { load, current } = shop()
    write('a.yaml', say('Fill it.', 'one'))
    write('b.yml', say('Fill it.', 'two'))
    write('notes.md', 'no procedure')
    write('procedure.schema.json', '{}')
    write('._a.yaml', Uint8Array.of(0, 5, 22, 7))
    expect(await load()).toEqual([])
    expect((await current()).map(({ id }) => id)).toEqual(['one', 'two'])
  })

  test('a file that is gone takes its procedure off the list, but keeps its versions', async () => {
    const { load, current, records } = shop()
    write('a.yaml', say('Fill it.', 'one'))
    write('b.yaml', say('Fill it.', 'two'))
    await load()
    const gone = (await current()).find(({ id }) => id === 'two')
    rmSync(join(folder, 'b.yaml'))
    await load()
    expect((await current()).map(({ id }) => id)).toEqual(['one'])
    expect(await records.procedure(gone?.hash ?? '')).toContain('Fill it.')
  })

  test('nothing leaves the list while a file is faulty, since nobody knows what it stood for', async () => {
    const { load, current } = shop()
    write('a.yaml', say('Fill it.', 'one'))
    write('b.yaml', say('Fill it.', 'two'))
    await load()
    write('a.yaml', 'procedure: [')
    rmSync(join(folder, 'b.yaml'))
    await load()
    expect((await current()).map(({ id }) => id)).toEqual(['one', 'two'])
  })

  test('nor when the folder is away', async () => {
    const { load, current } = shop()
    write('a.yaml', say('Fill it.', 'one'))
    await load()
    rmSync(folder, { recursive: true })
    expect(await load()).toMatchObject([{ problems: [{ what: expect.stringContaining('ENOENT') }] }])
    expect((await current()).map(({ id }) => id)).toEqual(['one'])
  })
})

describe('what was published here', () => {
  const release = { note: 'ours', by: 'Ada', at: 1, followsFile: false, reasons: [] }
  const versionIn = (words: string) => {
    const read = readProcedure(say(words))
    const version = read.kind === 'read' ? versionOf(read.procedure, say(words)) : null
    if (version === null) throw new Error('It cannot be read.')
    return version
  }

  test('stays in the place of its file, whose version can still be had, until it goes back to the file', async () => {
    const { load, only, records } = shop()
    write('a.yaml', say('Fill the hopper.'))
    await load()
    const file = await only()
    const ours = versionIn('Fill ours.')
    await records.release(ours, release)
    write('a.yaml', say('Fill the newer file.'))
    expect(await load()).toEqual([])
    expect(await only()).toBe(ours.hash)
    const { shipped } = await loadProcedures(folder, records, 2)
    const newer = shipped.get('test-machine') ?? ''
    expect(await records.source(newer)).toBe(say('Fill the newer file.'))
    expect(newer).not.toBe(file)
    await records.release(versionIn('Fill the newer file.'), { ...release, followsFile: true })
    write('a.yaml', say('Fill the newest file.'))
    await load()
    expect([newer, ours.hash]).not.toContain(await only())
  })

  test('stays without any file, and is held to rules that were chosen since', async () => {
    const { load, only, records } = shop()
    const wait = 'use: [s], wait: {for: contact, of: chlorine, at least: 1 s, source: Label}'
    const solution = 'solutions:\n  - {id: s, name: S, amount: 1 L, per: side, directions: D, chemical: hypochlorite}'
    const text = withHead(`  - {stage: A, steps: [{step: it, say: Pour., hands: 5 s, ${wait}}]}`, solution)
    const read = readProcedure(text)
    const version = read.kind === 'read' ? versionOf(read.procedure, text) : null
    if (version === null) throw new Error('It cannot be read.')
    await records.release(version, release)
    expect(await load()).toEqual([])
    expect(await only()).toBe(version.hash)
    mkdirSync(join(folder, 'rules'))
    for (const name of readdirSync(RULES).filter((file) => file.endsWith('.yaml')))
      copyFileSync(join(RULES, name), join(folder, 'rules', name))
    expect(await load()).toEqual([])
    const held = JSON.parse((await records.procedure(await only())) ?? '') as Procedure
    expect(held.stages[0]?.steps[0]?.wait?.minSeconds).toBeGreaterThan(1)
    expect((await records.releases('test-machine')).map(({ by }) => by)).toEqual(['', 'Ada'])
    expect(await load()).toEqual([])
    expect(await records.releases('test-machine')).toHaveLength(2)
  })
})
