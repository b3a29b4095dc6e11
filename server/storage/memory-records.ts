/** Records that live as long as the process: for tests and for trying things out. */
import type { RunEvent } from '../../src/core/run/event.ts'
import type { ChainEntry, ProcedureVersion, Records, TimeAnchor } from './records.ts'
import { chained, NOTHING_CHAINED } from './chained.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import { withRealEnd } from '../../src/core/run/listed-end.ts'
import { listedWith, UNHEARD_OF, type ListedRun } from '../../src/core/run/listed-run.ts'
import { memoryWorkshop } from './memory-workshop.ts'
import { rowOf } from './run-row.ts'
import type { PutAway } from './workshop-records.ts'

export function memoryRecords(): Records {
  const versions = new Map<string, ProcedureVersion & { readonly publishedAt: number }>()
  const current = new Map<string, string>()
  const events: RunEvent[] = []
  const chain: ChainEntry[] = []
  const lastReceived = new Map<string, number>()
  const byId = new Map<string, string>()
  let anchor: TimeAnchor | null = null

  const told = (): ReadonlyMap<string, ListedRun> => {
    const all = new Map<string, ListedRun>()
    for (const event of events) all.set(event.runId, listedWith(all.get(event.runId) ?? UNHEARD_OF, event))
    return all
  }
  const summaries = (): readonly (readonly [string, ListedRun])[] =>
    [...told()].map(([runId, run]) => {
      const version = versions.get(run.started?.procedureHash ?? '')
      const own = events.filter((event) => event.runId === runId)
      return [runId, version ? withRealEnd(run, layOut(version.procedure), own) : run]
    })

  const away = new Map<string, PutAway>()
  const add = (version: ProcedureVersion, publishedAt: number, makesCurrent: boolean) => {
    if (!versions.has(version.hash)) versions.set(version.hash, { ...version, publishedAt })
    if (makesCurrent) current.set(version.procedure.id, version.hash)
  }

  return {
    ...memoryWorkshop({ add, current: (id) => current.get(id) ?? null, away, all: versions }),
    publish: async (version, at) => add(version, at, true),
    async keepCurrent(ids) {
      for (const id of [...current.keys()]) if (!ids.includes(id)) current.delete(id)
    },
    currentProcedures: async () =>
      [...current]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .flatMap(([id, hash]) => {
          const version = versions.get(hash)
          return version && !away.has(id) ? [{ hash, procedure: version.procedure }] : []
        }),
    procedure: async (hash) => versions.get(hash)?.canonical ?? null,
    async begun(runIds) {
      const known = told()
      return new Set(runIds.filter((runId) => known.get(runId)?.started))
    },
    async addEvents(incoming, receivedAt) {
      const stored: string[] = []
      const conflicting: string[] = []
      const positions = new Map<string, number>()
      for (const { event, canonical } of incoming) {
        const known = byId.get(event.id)
        if (known !== undefined && known !== canonical) {
          conflicting.push(event.id)
          continue
        }
        stored.push(event.id)
        if (known !== undefined) continue
        byId.set(event.id, canonical)
        events.push(event)
        const { started } = told().get(event.runId) ?? UNHEARD_OF
        const last = chain.findLast(({ site }) => site === (started?.site ?? '')) ?? NOTHING_CHAINED
        const added = chained(started?.site ?? '', canonical, receivedAt, last)
        chain.push({ position: events.length, runId: event.runId, canonical, receivedAt, ...added })
        positions.set(event.runId, events.length)
        lastReceived.set(event.runId, Math.max(receivedAt, lastReceived.get(event.runId) ?? 0))
      }
      return { kind: 'added', stored, conflicting, positions }
    },
    async eventsAfter(runId, position) {
      const found = events
        .map((event, index) => ({ event, at: index + 1 }))
        .filter(({ event, at }) => event.runId === runId && at > position)
      return { events: found.map(({ event }) => event), position: found.at(-1)?.at ?? position }
    },
    chainOfRun: async (runId) => chain.filter((entry) => entry.runId === runId),
    chainOfSite: async (site, from, to) =>
      chain.filter((entry) => entry.site === site && entry.position >= from && entry.position <= to),
    linkBefore: async (site, position) =>
      chain.findLast((entry) => entry.site === site && entry.position < position)?.link ?? null,
    sites: async () =>
      [...new Map(chain.map(({ site, place }) => [site, { site, places: place }])).values()].sort((a, b) =>
        a.site < b.site ? -1 : 1
      ),
    runs: async (limit) =>
      summaries()
        .flatMap(([runId, run]) => rowOf(runId, run))
        .sort((a, b) => b.lastAt - a.lastAt || (a.runId < b.runId ? -1 : 1))
        .slice(0, limit),
    hasOpenRuns: async (receivedSince) =>
      summaries().some(([runId, { open }]) => open && (lastReceived.get(runId) ?? 0) >= receivedSince),
    timeAnchor: async () => anchor,
    async keepTimeAnchor(kept) {
      anchor = kept
    },
    close: async () => undefined
  }
}
