/** Drafts and releases in SQLite. A draft that is gone leaves its row, so that no revision comes a second time. */
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { ProcedureVersion } from './records.ts'
import type { SqliteConnection } from './sqlite-engine.ts'
import type { Draft, KeptReason, PutAway, Release, SavedDraft, WorkshopRecords } from './workshop-records.ts'

type DraftRow = Omit<Draft, 'text'> & { readonly text: string | null }

interface ReleaseRow extends Omit<Release, 'followsFile' | 'reasons'> {
  readonly followsFile: number
  readonly reasons: string
}

const DRAFT = 'id, text, revision, saved_by AS "by", saved_at AS "at", base'
const RELEASE = 'number, id, hash, note, released_by AS "by", released_at AS "at", follows_file AS followsFile, reasons'

export interface PutVersions {
  readonly insert: (version: ProcedureVersion, at: number) => void
  readonly makeCurrent: (id: string, hash: string) => void
}

export function sqliteWorkshop(database: SqliteConnection, { insert, makeCurrent }: PutVersions): WorkshopRecords {
  const drafts = database.prepare<[], DraftRow>(`SELECT ${DRAFT} FROM drafts WHERE text IS NOT NULL ORDER BY id`)
  const draftRow = database.prepare<[string], DraftRow>(`SELECT ${DRAFT} FROM drafts WHERE id = ?`)
  const putDraft = database.prepare(
    'INSERT OR REPLACE INTO drafts (id, text, revision, saved_by, saved_at, base) VALUES (?, ?, ?, ?, ?, ?)'
  )
  const dropDraft = database.prepare('UPDATE drafts SET text = NULL WHERE id = ? AND revision = ? AND text IS NOT NULL')
  const insertRelease = database.prepare(
    'INSERT INTO releases (id, hash, source, note, released_by, released_at, follows_file, reasons) VALUES (?, ?, ?, ?, ?, ?, ?, ?)'
  )
  const releasesOf = database.prepare<[string], ReleaseRow>(
    `SELECT ${RELEASE} FROM releases WHERE id = ? ORDER BY number DESC`
  )
  const lastReleases = database.prepare<[], ReleaseRow>(
    `SELECT ${RELEASE} FROM releases WHERE number IN (SELECT max(number) FROM releases GROUP BY id) ORDER BY id`
  )
  const insertAway = database.prepare(
    `INSERT INTO put_away (id, put_by, put_at)
    SELECT id, ?, ? FROM current_procedures WHERE id = ? AND id NOT IN (SELECT id FROM put_away)`
  )
  const offerAgain = database.prepare('DELETE FROM put_away WHERE id = ?')
  const allAway = database.prepare<[], PutAway & { readonly canonical: string }>(
    `SELECT put_away.id, canonical, put_by AS "by", put_at AS "at" FROM put_away
    JOIN current_procedures ON current_procedures.id = put_away.id JOIN procedures USING (hash) ORDER BY put_away.id`
  )
  const versionsOf = database.prepare<[string], { hash: string; publishedAt: number }>(
    'SELECT hash, published_at AS publishedAt FROM procedures WHERE id = ? ORDER BY published_at DESC, rowid DESC'
  )
  const sourceOf = database.prepare<[string, string], { source: string }>(
    `SELECT source FROM (
      SELECT number, source FROM releases WHERE hash = ? UNION ALL SELECT 0, source FROM procedures WHERE hash = ?
    ) ORDER BY number DESC LIMIT 1`
  )

  const save = database.transaction(
    ({ id, text, by, base }: Pick<Draft, 'id' | 'text' | 'by' | 'base'>, after: number, at: number): SavedDraft => {
      const row = draftRow.get(id)
      const there = draftIn(row)
      if ((there?.revision ?? 0) !== after) return { kind: 'overtaken', draft: there }
      const draft: Draft = { id, text, by, base, at, revision: (row?.revision ?? 0) + 1 }
      putDraft.run(id, text, draft.revision, by, at, base)
      return { kind: 'saved', draft }
    }
  )
  const release = database.transaction(
    (version: ProcedureVersion, { note, by, at, followsFile, reasons }: Omit<Release, 'number' | 'id' | 'hash'>) => {
      const { hash } = version
      const { id } = version.procedure
      insert(version, at)
      makeCurrent(id, hash)
      offerAgain.run(id)
      const made = insertRelease.run(
        id,
        hash,
        version.source,
        note,
        by,
        at,
        followsFile ? 1 : 0,
        JSON.stringify(reasons)
      )
      return { number: Number(made.lastInsertRowid), id, hash, note, by, at, followsFile, reasons }
    }
  )

  return {
    drafts: async () => drafts.all().flatMap((row) => draftIn(row) ?? []),
    draft: async (id) => draftIn(draftRow.get(id)),
    saveDraft: async (draft, after, at) => save.immediate(draft, after, at),
    dropDraft: async (id, revision) => dropDraft.run(id, revision).changes === 1,
    keepVersion: async (version, at) => insert(version, at),
    release: async (version, made) => release.immediate(version, made),
    putAway: async ({ id, by, at }) => insertAway.run(by, at, id).changes === 1,
    allPutAway: async () =>
      allAway.all().map(({ canonical, ...away }) => ({ ...away, title: (JSON.parse(canonical) as Procedure).title })),
    releases: async (id) => releasesOf.all(id).map(releaseIn),
    lastReleases: async () => lastReleases.all().map(releaseIn),
    versions: async (id) => versionsOf.all(id),
    source: async (hash) => sourceOf.get(hash, hash)?.source ?? null
  }
}

function draftIn(row: DraftRow | undefined): Draft | null {
  return row && row.text !== null ? { ...row, text: row.text } : null
}

function releaseIn(row: ReleaseRow): Release {
  return { ...row, followsFile: row.followsFile === 1, reasons: JSON.parse(row.reasons) as readonly KeptReason[] }
}
