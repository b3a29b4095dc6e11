import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { loadRules, offered } from '../../server/procedures/load-rules.ts'
import { memoryStorage } from '../../tests/helpers/memory-event-log.ts'
import type { ServerLink } from '../ports/server.ts'
import { rulesHere } from './rules-shelf.ts'

const SHIPPED = offered(await loadRules(fileURLToPath(new URL('../../procedures/rules', import.meta.url))))

function link(rules: ServerLink['rules']): ServerLink {
  const never = () => Promise.reject(new Error('Only the rules are asked for.'))
  return {
    time: never,
    procedures: never,
    procedure: never,
    runs: never,
    times: never,
    wear: never,
    events: never,
    send: never,
    rules
  }
}
const there = link(() => Promise.resolve({ kind: 'answered', value: SHIPPED }))
const away = link(() => Promise.resolve({ kind: 'failed', failure: { kind: 'unreachable' } }))

test('the rules are those of the server, and later those it had', async () => {
  const log = memoryStorage().open()
  expect(await rulesHere({ server: there, log })).toEqual(SHIPPED)
  expect(await rulesHere({ server: away, log })).toEqual(SHIPPED)
})

test('a device that has never had them has none', async () => {
  expect(await rulesHere({ server: away, log: memoryStorage().open() })).toBe(null)
})

test('what was kept and cannot be read is none', async () => {
  const log = memoryStorage().open()
  for (const kept of ['{', '{}', 'null']) {
    await log.keepSetting('rules-offered', kept)
    expect(await rulesHere({ server: away, log })).toBe(null)
  }
})
