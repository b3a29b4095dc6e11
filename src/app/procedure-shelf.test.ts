import { expect, test } from 'vitest'
import { aProcedure, EVERYTHING } from '../../tests/helpers/a-procedure.ts'
import { promisesRun } from '../../tests/helpers/fake-clock.ts'
import { memoryStorage } from '../../tests/helpers/memory-event-log.ts'
import type { ProcedureListing, ServerFailure, ServerLink } from '../ports/server.ts'
import { openProcedureShelf } from './procedure-shelf.ts'

const procedure = aProcedure(EVERYTHING)
const { title, summary, machine, sides } = procedure
const listing = (hash: string): ProcedureListing => ({
  id: 'one',
  hash,
  title,
  summary,
  machine,
  sides,
  aboutSeconds: 9
})

/** A server that offers what the test says, or is away in the way the test says. */
function world() {
  const storage = memoryStorage()
  const server = {
    offers: [] as string[],
    missing: [] as string[],
    failure: null as ServerFailure | null,
    asked: [] as string[]
  }
  const link = {
    async procedures() {
      if (server.failure) return { kind: 'failed', failure: server.failure } as const
      return { kind: 'answered', value: { procedures: server.offers.map(listing), faults: [] } } as const
    },
    async procedure(hash: string) {
      server.asked.push(hash)
      if (server.failure || server.missing.includes(hash)) {
        return { kind: 'failed', failure: server.failure ?? { kind: 'unreachable' } } as const
      }
      return { kind: 'answered', value: procedure } as const
    }
  } satisfies Pick<ServerLink, 'procedures' | 'procedure'> as unknown as ServerLink
  const notKept: string[] = []
  const open = () => {
    const log = storage.open()
    return { log, shelf: openProcedureShelf({ log, server: link }, ({ reason }) => notKept.push(reason)) }
  }
  return { server, open, notKept }
}

const hashes = ({ procedures }: { readonly procedures: readonly ProcedureListing[] }) =>
  procedures.map(({ hash }) => hash)

test('what is offered is kept at once, and offered again while the server is away', async () => {
  const { server, open } = world()
  server.offers = ['a', 'b']
  const first = open()
  expect(await first.shelf.offered()).toMatchObject({ failure: null })
  await promisesRun()
  first.log.close()
  server.failure = { kind: 'unreachable' }
  const { shelf } = open()
  const offered = await shelf.offered()
  expect(hashes(offered)).toEqual(['a', 'b'])
  expect(offered.failure).toEqual({ kind: 'unreachable' })
  expect((await shelf.course('b'))?.procedure).toEqual(procedure)
  expect(server.asked).toEqual(['a', 'b'])
})

test('only the last offer counts: an older version stays for its runs and is not offered', async () => {
  const { server, open } = world()
  const { shelf } = open()
  server.offers = ['a', 'b']
  await shelf.offered()
  server.offers = ['a2']
  await shelf.offered()
  await promisesRun()
  server.failure = { kind: 'not-understood', detail: 'Something other than Sidecall answered with status 302.' }
  const offered = await shelf.offered()
  expect(hashes(offered)).toEqual(['a2'])
  expect(offered.failure).toEqual(server.failure)
  expect(await shelf.course('b')).not.toBe(null)
})

test('what could not be fetched is not offered, does not hold up the others, and is fetched another time', async () => {
  const { server, open } = world()
  const { shelf } = open()
  server.offers = ['a', 'b']
  server.missing = ['a']
  await shelf.offered()
  await promisesRun()
  server.failure = { kind: 'unreachable' }
  expect(hashes(await shelf.offered())).toEqual(['b'])
  expect(await shelf.course('a')).toBe(null)
  server.failure = null
  server.missing = []
  await shelf.offered()
  await promisesRun()
  server.failure = { kind: 'unreachable' }
  expect(hashes(await shelf.offered())).toEqual(['a', 'b'])
})

test('a full device says so, and the procedure can still be carried out', async () => {
  const { server, open, notKept } = world()
  const { log, shelf } = open()
  log.failAll('full')
  server.offers = ['a']
  expect(hashes(await shelf.offered())).toEqual(['a'])
  await promisesRun()
  expect(notKept).toContain('full')
  expect((await shelf.course('a'))?.procedure).toEqual(procedure)
})

test('a last offer that cannot be read is none', async () => {
  const { server, open } = world()
  const { log, shelf } = open()
  server.failure = { kind: 'unreachable' }
  for (const text of ['{', '{"procedures":[{}],"faults":[]}', 'null']) {
    await log.keepSetting('procedures-offered', text)
    expect(hashes(await shelf.offered())).toEqual([])
  }
})
