import { expect, test } from 'vitest'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { fakeBrowserLocks } from '../../tests/helpers/fake-locks.ts'
import { memoryStorage } from '../../tests/helpers/memory-event-log.ts'
import type { Receipt, ServerLink } from '../ports/server.ts'
import { openOutbox } from './outbox.ts'

test('a receipt that names none of what was sent ends the round, and the event stays unsent', async () => {
  const log = memoryStorage().open()
  await log.append([counting()(1)(STARTED)])
  let sendings = 0
  const receipt: Receipt = { stored: [], rejected: [{ id: '', why: 'id: missing' }] }
  const server = {
    async send() {
      sendings += 1
      if (sendings > 3) throw new Error('It goes round and round.')
      return { kind: 'answered', value: receipt }
    }
  } satisfies Pick<ServerLink, 'send'> as unknown as ServerLink
  const outbox = openOutbox({ log, server, locks: fakeBrowserLocks().tab(), clock: fakeClock() })
  await outbox.flush()
  expect(sendings).toBe(1)
  expect(outbox.$link.get()).toEqual({ kind: 'rejecting', why: 'id: missing' })
  expect(await log.unsent(10)).toMatchObject({ kind: 'kept', value: [{ type: 'run-started' }] })
  outbox.stop()
})
