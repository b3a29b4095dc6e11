import { describe, expect, test } from 'vitest'
import { anApp, type AnApp } from '../../tests/helpers/an-app.ts'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { fakeBrowserLocks } from '../../tests/helpers/fake-locks.ts'
import { memoryStorage } from '../../tests/helpers/memory-event-log.ts'
import { readReceipt } from '../core/record/wire-answers.ts'
import type { EventLog } from '../ports/event-log.ts'
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

describe('a server that does not know the run, since an older copy of its store was put back', () => {
  const SENDER = { time: async () => ({ kind: 'answered', value: { trusted: 1 } }) as const }
  const server = (app: AnApp): ServerLink =>
    ({
      ...SENDER,
      async send(events) {
        const answer = await app.send({ events })
        return { kind: 'answered', value: readReceipt(await answer.json()) ?? { stored: [], rejected: [] } }
      }
    }) satisfies Pick<ServerLink, 'send' | 'time'> as unknown as ServerLink
  const flushed = async (log: EventLog, link: ServerLink) => {
    const outbox = openOutbox({ log, server: link, locks: fakeBrowserLocks().tab(), clock: fakeClock() }, CONFIRMED)
    await outbox.flush()
    outbox.stop()
    return outbox.$link.get()
  }

  test('is told all of it again, what it had acknowledged too, and by others too', async () => {
    const log = memoryStorage().open()
    const [tablet, phone] = [counting(), counting('phone')]
    const events = [tablet(1)(STARTED), tablet(2)({ type: 'paused' })]
    await log.append(events)
    await flushed(log, server(anApp()))
    const theirs = phone(3)({ type: 'resumed' })
    await log.receive([theirs])
    const later = tablet(4)({ type: 'paused' })
    await log.append([later])
    const emptied = anApp()
    expect(await flushed(log, server(emptied))).toEqual({ kind: 'linked' })
    expect((await emptied.records.eventsAfter('run', 0)).events).toEqual([...events, theirs, later])
    expect(await log.unsent(10)).toEqual({ kind: 'kept', value: [] })
    expect(await log.rejections()).toEqual({ kind: 'kept', value: [] })
  })

  test('is shown to people where the beginning is not on this device either', async () => {
    const log = memoryStorage().open()
    const event = counting()(2)({ type: 'paused' })
    await log.append([event])
    expect(await flushed(log, server(anApp()))).toMatchObject({ kind: 'rejecting' })
    expect(await log.rejections()).toMatchObject({ value: [{ id: event.id }] })
  })

  test('that refuses the beginning too is asked no more than twice', async () => {
    const log = memoryStorage().open()
    const events = [counting()(1)(STARTED), counting('phone')(2)({ type: 'paused' })]
    await log.append(events)
    let sendings = 0
    const refusing = {
      ...SENDER,
      async send(sent) {
        sendings += 1
        const rejected = sent.map(({ id }) => ({ id, why: 'No.', because: 'unknown-run' as const }))
        return { kind: 'answered', value: { stored: [], rejected } }
      }
    } satisfies Pick<ServerLink, 'send' | 'time'> as unknown as ServerLink
    expect(await flushed(log, refusing)).toEqual({ kind: 'rejecting', why: 'No.' })
    expect(sendings).toBe(2)
    expect(await log.rejections()).toMatchObject({ value: events.map(({ id }) => ({ id })).toReversed() })
  })
})
