import { expect, test } from 'vitest'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { fakeBrowserLocks } from '../../tests/helpers/fake-locks.ts'
import { memoryStorage } from '../../tests/helpers/memory-event-log.ts'
import type { Receipt, ServerLink } from '../ports/server.ts'
import { openOutbox } from './outbox.ts'
import type { TimeAsked } from './time-keeper.ts'

const CONFIRMED = async (): Promise<TimeAsked> => ({ kind: 'confirmed' })

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
  const outbox = openOutbox({ log, server, locks: fakeBrowserLocks().tab(), clock: fakeClock() }, CONFIRMED)
  await outbox.flush()
  expect(sendings).toBe(1)
  expect(outbox.$link.get()).toEqual({ kind: 'rejecting', why: 'id: missing' })
  expect(await log.unsent(10)).toMatchObject({ kind: 'kept', value: [{ type: 'run-started' }] })
  outbox.stop()
})

test('nothing is sent before the time is confirmed, and what that adds goes with it', async () => {
  const log = memoryStorage().open()
  const stamp = counting()
  await log.append([stamp(1)(STARTED)])
  const sent: string[] = []
  const server = {
    async send(events) {
      sent.push(...events.map(({ type }) => type))
      return { kind: 'answered', value: { stored: events.map(({ id }) => id), rejected: [] } }
    },
    time: async () => ({ kind: 'answered', value: { trusted: 1 } })
  } satisfies Pick<ServerLink, 'send' | 'time'> as unknown as ServerLink
  const answers: TimeAsked[] = [{ kind: 'failed', failure: { kind: 'unreachable' } }, { kind: 'not-kept' }]
  const outbox = openOutbox({ log, server, locks: fakeBrowserLocks().tab(), clock: fakeClock() }, async () => {
    const [answer] = answers.splice(0, 1)
    if (answer) return answer
    await log.append([stamp(2)({ type: 'clock-caught-up', since: 0, byMs: 5000 })])
    return { kind: 'confirmed' }
  })
  await outbox.flush()
  expect(outbox.$link.get()).toEqual({ kind: 'away', unsent: 1 })
  await outbox.flush()
  expect(sent).toEqual([])
  await outbox.flush()
  expect(sent).toEqual(['run-started', 'clock-caught-up'])
  outbox.stop()
})
