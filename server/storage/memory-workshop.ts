/** Drafts and releases that live as long as the process. */
import type { ProcedureVersion } from './records.ts'
import type { Draft, PutAway, Release, WorkshopRecords } from './workshop-records.ts'

export interface KnownVersions {
  /** `makesCurrent`: it is the one that is offered from now on. */
  add(version: ProcedureVersion, at: number, makesCurrent: boolean): void
  /** Of the version that is offered, also where it is put away; null for an unknown id. */
  current(id: string): string | null
  readonly away: Map<string, PutAway>
  readonly all: ReadonlyMap<string, ProcedureVersion & { readonly publishedAt: number }>
}

export function memoryWorkshop(known: KnownVersions): WorkshopRecords {
  const drafts = new Map<string, { readonly revision: number; readonly draft: Draft | null }>()
  const releases: Release[] = []
  const sources = new Map<string, string>()
  const ofId = (id: string) => releases.filter((release) => release.id === id).toReversed()
  return {
    drafts: async () => [...drafts.values()].flatMap(({ draft }) => draft ?? []).sort((a, b) => (a.id < b.id ? -1 : 1)),
    draft: async (id) => drafts.get(id)?.draft ?? null,
    async saveDraft(changed, after, at) {
      const { revision, draft } = drafts.get(changed.id) ?? { revision: 0, draft: null }
      if ((draft?.revision ?? 0) !== after) return { kind: 'overtaken', draft }
      const saved: Draft = { ...changed, at, revision: revision + 1 }
      drafts.set(changed.id, { revision: saved.revision, draft: saved })
      return { kind: 'saved', draft: saved }
    },
    async dropDraft(id, revision) {
      if (drafts.get(id)?.draft?.revision !== revision) return false
      drafts.set(id, { revision, draft: null })
      return true
    },
    async keepVersion(version, at) {
      known.add(version, at, false)
    },
    async release(version, release) {
      known.add(version, release.at, true)
      known.away.delete(version.procedure.id)
      const made = { ...release, number: releases.length + 1, id: version.procedure.id, hash: version.hash }
      releases.push(made)
      sources.set(version.hash, version.source)
      return made
    },
    async putAway(away) {
      if (known.away.has(away.id) || known.current(away.id) === null) return false
      known.away.set(away.id, away)
      return true
    },
    allPutAway: async () =>
      [...known.away.values()]
        .sort((a, b) => (a.id < b.id ? -1 : 1))
        .flatMap((away) => {
          const version = known.all.get(known.current(away.id) ?? '')
          return version ? [{ ...away, title: version.procedure.title }] : []
        }),
    releases: async (id) => ofId(id),
    lastReleases: async () => [...new Set(releases.map(({ id }) => id))].flatMap((id) => ofId(id)[0] ?? []),
    versions: async (id) =>
      [...known.all.values()]
        .filter(({ procedure }) => procedure.id === id)
        .map(({ hash, publishedAt }) => ({ hash, publishedAt }))
        .toReversed()
        .sort((a, b) => b.publishedAt - a.publishedAt),
    source: async (hash) => sources.get(hash) ?? known.all.get(hash)?.source ?? null
  }
}
