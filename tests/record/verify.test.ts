/** An export is changed in every way, and the check has to name the place. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canonicalJson, sha256 } from '../../server/procedures/content-hash.ts'
import { passingSigner } from '../../server/signing/signing-key.ts'
import { headText, linkOf } from '../../src/core/record/chain.ts'
import { checkExport } from '../../src/core/record/check-export.ts'
import { anApp } from '../helpers/an-app.ts'
import { closedRun, publishSmall } from '../helpers/closed-run.ts'
import { sending } from '../helpers/shop-people.ts'
import { verifyCommand } from './verify-command.ts'
import { CHECK_TOOLS } from './check-tools.ts'

/** As loose as a file that somebody edits. */
interface LooseEntry {
  place: number
  receivedAt: number
  link: string
  digest?: string
  event: Record<string, unknown>
}
interface LooseChain {
  site: string
  after: { link: string }
  entries: LooseEntry[]
  head: { at: number; key: string; signature: string }
}
interface Loose {
  chains: LooseChain[]
  loose: unknown[]
  keys: { id: string; publicKey: string }[]
  procedures: Record<string, { title: Record<string, string> }>
}

let folder = ''
let whole: Loose
let one: Loose
const copy = (value: Loose): Loose => structuredClone(value)
function nth<T>(list: readonly T[], index: number): T {
  const found = list[index]
  if (found === undefined) throw new Error(`There is no number ${index}.`)
  return found
}
const check = (value: unknown) => checkExport(value, CHECK_TOOLS)

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-verify-'))
  const { owner, send, records } = anApp()
  await publishSmall(records)
  const runs = ['a', 'b', 'c'].map((run) => closedRun(run))
  const elsewhere = closedRun('d', 1_795_000_000_000, 'Harbour shop')
  // Two tablets at work, and one in another shop.
  for (let index = 0; index < (runs[0]?.length ?? 0); index += 1) {
    await send({
      events: [...runs.flatMap((run) => run.slice(index, index + 1)), ...elsewhere.slice(index, index + 1)]
    })
  }
  const ask = await owner()
  const signing = sending('POST', { meaning: 'review', entries: runs[1]?.length })
  const signed = await ask('/api/runs/b/signatures', signing)
  if (!signed.ok) throw new Error(await signed.text())
  whole = (await (await ask('/api/export.json')).json()) as Loose
  one = (await (await ask('/api/export.json?run=b')).json()) as Loose
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

function file(text: string): string {
  const path = join(folder, 'export.json')
  writeFileSync(path, text)
  return path
}

const verify = (text: string, ...more: readonly string[]) => verifyCommand([file(text), ...more])

describe('an export as the server made it', () => {
  test('is sound, for every site and for one run', () => {
    const count = closedRun('a').length
    expect(check(whole)).toMatchObject({ kind: 'sound', entries: 4 * count + 1, others: 0, signatures: 1 })
    expect(check(one)).toMatchObject({ kind: 'sound', entries: count + 1, signatures: 1 })
    const printed = verify(JSON.stringify(whole))
    expect(printed.code).toBe(0)
    expect(printed.lines.join('\n')).toContain('Corner shop')
    expect(printed.lines.join('\n')).toContain('Harbour shop')
  })

  test('one run tells nothing of the others', () => {
    expect(JSON.stringify(one)).not.toContain('"a-tablet')
    expect(check(one)).toMatchObject({ others: expect.any(Number) })
  })

  test('means the same however its JSON is laid out', () => {
    expect(verify(JSON.stringify(whole, null, 3)).code).toBe(0)
  })

  test('is held to the key that is named', () => {
    const { id } = nth(whole.keys, 0)
    expect(verify(JSON.stringify(whole), '--key', id).code).toBe(0)
    expect(verify(JSON.stringify(whole), '--key', sha256('another')).code).toBe(1)
  })
})

describe('whatever is changed', () => {
  const place = () => fc.nat(nth(whole.chains, 0).entries.length - 1)

  test('an entry, in any of its words: that entry is named', () => {
    fc.assert(
      fc.property(place(), fc.nat(30), (index, which) => {
        const changed = copy(whole)
        const entry = nth(nth(changed.chains, 0).entries, index)
        const keys = Object.keys(entry.event)
        const key = keys[which % keys.length] ?? ''
        entry.event[key] = typeof entry.event[key] === 'number' ? entry.event[key] + 1 : 'something else'
        expect(check(changed)).toMatchObject({
          kind: 'broken',
          fault: 'entry',
          at: { site: 'Corner shop', place: index + 1 }
        })
      })
    )
  })

  test('an entry left out, moved or added: its place is named', () => {
    fc.assert(
      fc.property(place(), place(), (index, to) => {
        const entries = (value: Loose): unknown[] => nth(value.chains, 0).entries
        const [without, moved, twice] = [copy(whole), copy(whole), copy(whole)]
        entries(without).splice(index, 1)
        const isLast = index === entries(whole).length - 1
        expect(check(without)).toMatchObject({ kind: 'broken', fault: isLast ? 'head' : 'place' })
        entries(moved).splice(to, 0, ...entries(moved).splice(index, 1))
        expect(check(moved).kind).toBe(index === to ? 'sound' : 'broken')
        entries(twice).splice(index, 0, entries(whole)[index])
        expect(check(twice)).toMatchObject({ kind: 'broken', at: { place: index + 2 } })
      })
    )
  })

  test('the end cut off', () => {
    const cut = copy(whole)
    nth(cut.chains, 0).entries.length -= 3
    expect(check(cut)).toMatchObject({ fault: 'head' })
  })

  test('an entry, and every link after it made anew', () => {
    const forged = copy(whole)
    const [signed, unsigned] = [nth(forged.chains, 0), nth(forged.chains, 1)]
    nth(unsigned.entries, 2).event.by = 'Somebody else'
    relink(unsigned)
    expect(check(forged)).toMatchObject({ fault: 'head', at: { site: 'Harbour shop' } })
    // Where a supervisor has signed, the signature shows it before the end does.
    nth(signed.entries, 2).event.by = 'Somebody else'
    relink(signed)
    expect(check(forged)).toMatchObject({ fault: 'signature', at: { site: 'Corner shop', run: 'b' } })
  })

  test('all of it, and signed with a key of their own: another key shows', () => {
    const forged = copy(whole)
    const signer = passingSigner()
    forged.keys = [{ id: signer.keyId, publicKey: signer.publicKey }]
    for (const chain of forged.chains) {
      relink(chain)
      const { link, place: last } = nth(chain.entries, chain.entries.length - 1)
      chain.head = {
        at: 1,
        key: signer.keyId,
        signature: signer.sign(headText({ at: 1, link, place: last, site: chain.site }))
      }
    }
    expect(check(forged).kind).toBe('sound')
    expect(verify(JSON.stringify(forged), '--key', nth(whole.keys, 0).id).code).toBe(1)
  })

  test('when an entry came, or in which shop', () => {
    const [later, elsewhere] = [copy(whole), copy(whole)]
    nth(nth(later.chains, 0).entries, 4).receivedAt += 1
    expect(check(later)).toMatchObject({ fault: 'entry', at: { place: 5 } })
    nth(elsewhere.chains, 0).site = 'Another shop'
    expect(check(elsewhere)).toMatchObject({ fault: 'entry', at: { place: 1 } })
  })

  test('a signature, its key, or what a signature covers', () => {
    const [resigned, unkeyed, misnamed] = [copy(whole), copy(whole), copy(whole)]
    nth(resigned.chains, 0).head.signature = nth(resigned.chains, 1).head.signature
    expect(check(resigned)).toMatchObject({ fault: 'head' })
    unkeyed.keys = []
    expect(check(unkeyed)).toMatchObject({ fault: 'unknown-key' })
    nth(misnamed.keys, 0).publicKey = passingSigner().publicKey
    expect(check(misnamed)).toMatchObject({ fault: 'not-an-export' })
  })

  test('a signature that says to cover more than there was', async () => {
    const { app, send, records } = anApp()
    const events = closedRun('a')
    await send({ events })
    const head = (await records.chainOfRun('a'))[0]?.link ?? ''
    const last = events.at(-1)
    if (!last) throw new Error('There are events.')
    const { id: _, ...envelope } = last
    const signed = { ...envelope, id: 'x', type: 'signed', meaning: 'review', entries: events.length, head } as const
    await records.addEvents([{ event: signed, canonical: canonicalJson(signed) }], 5)
    expect(check(await (await app.request('/api/export.json')).json())).toMatchObject({
      fault: 'signature',
      at: { entry: 'x', run: 'a' }
    })
  })

  test('a procedure', () => {
    const changed = copy(one)
    const [hash, procedure] = nth(Object.entries(changed.procedures), 0)
    procedure.title['en'] = 'Something easier'
    expect(check(changed)).toMatchObject({ fault: 'procedure', at: { entry: hash } })
  })

  test('anything else, without ever failing', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(check(value)).toMatchObject({ kind: 'broken', fault: 'not-an-export' })
      })
    )
    fc.assert(
      fc.property(fc.constantFrom('chains', 'loose', 'keys', 'procedures', 'format'), fc.jsonValue(), (part, value) => {
        fc.pre(JSON.stringify(Object.entries(whole).find(([name]) => name === part)?.[1]) !== JSON.stringify(value))
        const changed = check({ ...whole, [part]: value })
        // Nothing depends on what was not there.
        if (part !== 'loose' && part !== 'procedures') expect(changed.kind).toBe('broken')
        else expect(['sound', 'broken']).toContain(changed.kind)
      })
    )
  })
})

describe('the command', () => {
  test('names the first broken entry, in words and as JSON', () => {
    const changed = copy(whole)
    nth(nth(changed.chains, 0).entries, 6).event.by = 'Somebody else'
    const { id, runId } = nth(nth(changed.chains, 0).entries, 6).event
    const printed = verify(JSON.stringify(changed))
    expect(printed).toMatchObject({
      code: 1,
      lines: [expect.stringContaining(`place 7, entry ${String(id)}, run ${String(runId)}`)]
    })
    const asJson = verify(JSON.stringify(changed), '--json')
    expect(JSON.parse(asJson.lines[0] ?? '')).toMatchObject({ kind: 'broken', fault: 'entry', at: { entry: id } })
  })

  test('says that a file cut off in the middle, or not there, cannot be looked at', () => {
    const text = JSON.stringify(whole)
    expect(verify(text.slice(0, text.length / 2))).toMatchObject({
      code: 2,
      lines: [expect.stringContaining('cut off')]
    })
    expect(verifyCommand([join(folder, 'nowhere.json')])).toMatchObject({
      code: 2,
      lines: [expect.stringContaining('cannot be read')]
    })
    expect(verifyCommand([]).code).toBe(2)
    expect(verifyCommand(['--help']).code).toBe(0)
  })

  test('says that nothing can be said of what comes straight from a device', () => {
    const loose = { ...copy(whole), chains: [], loose: closedRun('a'), keys: [] }
    expect(verify(JSON.stringify(loose))).toMatchObject({
      code: 0,
      lines: [expect.stringContaining('no server has chained')]
    })
  })
})

/** As a forger would who knows how it is done. */
function relink(chain: LooseChain): void {
  let previous: string = chain.after.link
  for (const entry of chain.entries) {
    const digest = entry.digest ?? sha256(canonicalJson(entry.event))
    previous = linkOf({ site: chain.site, place: entry.place, digest, receivedAt: entry.receivedAt, previous }, sha256)
    entry.link = previous
  }
}
