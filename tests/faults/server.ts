/** The real server's app, which crashes before or after it has kept a batch, and whose disk fills up. */
import { createApp } from '../../server/app.ts'
import { createLive } from '../../server/live.ts'
import { passingSigner } from '../../server/signing/signing-key.ts'
import { memoryRecords } from '../../server/storage/memory-records.ts'
import type { AddedEvents, Records } from '../../server/storage/records.ts'
import { NO_SCHEDULE } from '../../src/core/due/schedule.ts'
import { memoryAccounts } from '../helpers/memory-accounts.ts'
import type { Honesty } from './play-seed.ts'
import type { CrashPoint } from './crashing-log.ts'

export interface FaultyServer {
  readonly serve: (request: Request) => Promise<Response>
  readonly records: Records
  readonly crashed: () => number
  readonly full: () => number
}

export type Mishap = CrashPoint | 'full' | null

/** `mishap` is asked for every batch; `now` in trusted epoch ms. */
export function faultyServer(
  now: () => number,
  mishap: () => Mishap,
  newId: () => string,
  honesty: Honesty
): FaultyServer {
  const kept = memoryRecords()
  let crashed = 0
  let full = 0
  const addEvents = async (...given: Parameters<Records['addEvents']>): Promise<AddedEvents> => {
    const what = mishap()
    if (what === 'full') {
      full += 1
      return { kind: 'no-room' }
    }
    if (what === null) return kept.addEvents(...given)
    if (honesty === 'lies') return lieAbout(...given)
    crashed += 1
    if (what === 'after') await kept.addEvents(...given)
    throw new PowerLost()
  }
  const records: Records = { ...kept, addEvents }
  const signer = passingSigner()
  const accounts = memoryAccounts()
  const start = () =>
    createApp({
      records,
      accounts,
      faults: [],
      rules: { chosen: null, shelf: [] },
      schedule: NO_SCHEDULE,
      live: createLive(),
      signer,
      speech: null,
      voices: null,
      newId,
      now,
      pageFolder: null,
      log: () => {}
    })
  let app = start()
  return {
    records,
    async serve(request) {
      const answer = await app.fetch(request)
      if (answer.status !== 500) return answer
      // Whoever waited sees the connection break; what comes next meets a server that has started anew.
      app = start()
      throw new TypeError('fetch failed')
    },
    crashed: () => crashed,
    full: () => full
  }
}

function lieAbout(...[events]: Parameters<Records['addEvents']>): AddedEvents {
  return {
    kind: 'added',
    stored: events.map(({ event }) => event.id),
    conflicting: [],
    positions: new Map()
  }
}

class PowerLost extends Error {}
