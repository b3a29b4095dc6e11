/** Two exports of one server, the second made later, and what can be done to either. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { passingSigner } from '../../server/signing/signing-key.ts'
import { headText, linkOf, NO_LINK } from '../../src/core/record/chain.ts'
import { compareExports } from '../../src/core/record/compare-exports.ts'
import type { Export } from '../../src/core/record/export-format.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { anApp, type AnApp } from '../helpers/an-app.ts'
import { closedRun, publishSmall } from '../helpers/closed-run.ts'
import { CHECK_TOOLS } from './check-tools.ts'
import { verifyCommand } from './verify-command.ts'

let folder = ''
let files = 0
const made = new Map<string, Export>()
const exportOf = async ({ app }: AnApp, query = ''): Promise<Export> =>
  (await (await app.request(`/api/export.json${query}`)).json()) as Export
const compare = (older: Export, newer: Export) => compareExports(older, newer, CHECK_TOOLS)
const named = (name: string): Export => {
  const found = made.get(name)
  if (!found) throw new Error(`There is no export ${name}.`)
  return found
}
const command = (older: Export, newer: Export) =>
  verifyCommand(
    [older, newer].map((value) => {
      const path = join(folder, `${(files += 1)}.json`)
      writeFileSync(path, JSON.stringify(value))
      return path
    })
  )

async function shop(runs: readonly (readonly RunEvent[])[]): Promise<AnApp> {
  const app = anApp({ signer: passingSigner() })
  await publishSmall(app.records)
  for (const events of runs) await app.send({ events })
  return app
}

const [a, b, c] = [closedRun('a'), closedRun('b', 1_795_000_000_000), closedRun('c', 1_796_000_000_000)]
const places = a.length

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-compare-'))
  const app = await shop([a])
  made.set('first', await exportOf(app))
  await app.send({ events: b })
  made.set('second', await exportOf(app))
  await app.send({ events: c })
  made.set('third', await exportOf(app))
  made.set('only-a', await exportOf(app, '?run=a'))
  made.set('only-b', await exportOf(app, '?run=b'))
  made.set('only-c', await exportOf(app, '?run=c'))
  // All made anew, by somebody who has a key of their own and leaves one word out.
  const changed = a.map((event) => (event.type === 'run-started' ? { ...event, machine: 'Freezer 2' } : event))
  made.set('remade', await exportOf(await shop([changed, b])))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const site = { site: 'Corner shop' }

describe('a newer export', () => {
  test('goes on from an older one where its chain has the same link at the end of that', () => {
    const continued = { ...site, kind: 'continued', place: places, added: places, otherKey: null }
    expect(compare(named('first'), named('second'))).toEqual({ kind: 'compared', sites: [continued] })
    expect(command(named('first'), named('third'))).toMatchObject({ code: 0 })
    expect(command(named('second'), named('second'))).toMatchObject({ code: 0 })
  })

  test('of which the server began anew is found out, though it is sound by itself', () => {
    expect(compare(named('second'), named('remade'))).toMatchObject({ sites: [{ ...site, kind: 'changed', place: 1 }] })
    const { code, lines } = command(named('first'), named('remade'))
    expect([code, lines.join()]).toEqual([1, 'Corner shop: CHANGED. They differ at place 1, or before it.'])
  })

  test('that ends before the older one shows nothing', () => {
    const cut = { ...site, kind: 'ends-earlier', place: places, before: 2 * places }
    expect(compare(named('second'), named('first'))).toEqual({ kind: 'compared', sites: [cut] })
    expect(command(named('second'), named('first')).code).toBe(1)
  })

  test('of later runs alone goes on where it begins right behind the older one, and shows nothing behind a gap', () => {
    expect(compare(named('only-a'), named('only-b'))).toMatchObject({ sites: [{ kind: 'continued', place: places }] })
    expect(compare(named('only-a'), named('only-c'))).toEqual({
      kind: 'compared',
      sites: [{ ...site, kind: 'apart' }]
    })
    expect(command(named('only-a'), named('only-c')).code).toBe(1)
  })

  test('signed with another key says so', () => {
    const first = named('first')
    const [chain] = first.chains
    const end = chain?.entries.at(-1)
    if (!chain || !end) throw new Error('There is a chain with entries.')
    const { keyId, publicKey, sign } = passingSigner()
    const { at } = chain.head
    const signature = sign(headText({ site: chain.site, place: end.place, link: end.link, at }))
    const head = { at, key: keyId, signature }
    const resigned = { ...first, keys: [{ id: keyId, publicKey }], chains: [{ ...chain, head }] }
    expect(compare(first, resigned)).toMatchObject({
      sites: [{ kind: 'continued', added: 0, otherKey: keyId }]
    })
  })
})

/** Of places of which only the digest is there. Its length is what matters: a hash that costs nothing will do. */
const QUICK_TOOLS = { ...CHECK_TOOLS, sha256: (text: string) => `hash of ${text.length}` }
function longExport(places: number): Export {
  const { publicKey, sign } = passingSigner()
  const keyId = QUICK_TOOLS.sha256(publicKey)
  const entries: Export['chains'][number]['entries'] = []
  let link = NO_LINK
  for (let place = 1; place <= places; place += 1) {
    const one = { place, digest: NO_LINK, receivedAt: place }
    link = linkOf({ ...site, ...one, previous: link }, QUICK_TOOLS.sha256)
    entries.push({ ...one, link })
  }
  const signature = sign(headText({ ...site, place: places, link, at: 1 }))
  const chain = { ...site, after: { place: 0, link: NO_LINK }, entries, head: { at: 1, key: keyId, signature } }
  const keys = [{ id: keyId, publicKey }]
  return { ...named('first'), chains: [chain], keys, loose: [], procedures: {} }
}

test('years of a busy shop are compared as a day is', () => {
  const long = longExport(200_000)
  expect(compareExports(long, long, QUICK_TOOLS)).toEqual({
    kind: 'compared',
    sites: [{ ...site, kind: 'continued', place: 200_000, added: 0, otherKey: null }]
  })
})

test('what is broken by itself is said first, and of which of the two', () => {
  const second = structuredClone(named('second'))
  const entry = second.chains[0]?.entries[2]
  if (entry && 'event' in entry) entry.event.at += 1
  expect(compare(named('first'), second)).toMatchObject({
    kind: 'broken',
    which: 'newer',
    checked: { at: { place: 3 } }
  })
  expect(command(second, named('third'))).toMatchObject({
    code: 1,
    lines: [expect.stringContaining('in the older one')]
  })
})

test('what only a device made can be compared with nothing', () => {
  const loose = { ...named('first'), chains: [], loose: [{ ...a[0] }] as unknown as Export['loose'] }
  expect(command(loose, named('second'))).toMatchObject({ code: 1, lines: [expect.stringContaining('nothing')] })
})

test('a file that is not there is no comparison', () => {
  expect(verifyCommand([join(folder, 'gone.json'), join(folder, 'gone.json')]).code).toBe(2)
  expect(verifyCommand(['a', 'b', 'c']).code).toBe(2)
})
