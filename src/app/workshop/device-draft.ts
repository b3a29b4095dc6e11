/** A draft on this device: what nobody has saved yet outlives a reload, and a server that is away. */
import type { EventLog } from '../../ports/event-log.ts'

export interface DeviceDraft {
  readonly text: string
  /** The server's revision that it was changed from; 0 where there was none. */
  readonly revision: number
  readonly base: string | null
  /** Whether the server has it. */
  readonly isSaved: boolean
}

const key = (id: string) => `draft ${id}`
/** Ids of drafts that had something here alone once; whether they still have, each says itself. */
const IDS = 'draft-ids'

/** Resolves to why it could not be kept, or null. */
export async function keepDeviceDraft(log: EventLog, id: string, draft: DeviceDraft | null): Promise<string | null> {
  const kept = await log.keepSetting(key(id), draft === null ? '' : JSON.stringify(draft))
  if (kept.kind !== 'kept') return kept.detail
  if (draft === null || draft.isSaved) return null
  const ids = await idsHere(log)
  if (ids.includes(id)) return null
  const noted = await log.keepSetting(IDS, JSON.stringify([...ids, id]))
  return noted.kind === 'kept' ? null : noted.detail
}

/** Ids of those that the server does not have as they are here. */
export async function unsavedDrafts(log: EventLog): Promise<readonly string[]> {
  const ids = await idsHere(log)
  const drafts = await Promise.all(ids.map((id) => deviceDraft(log, id)))
  return ids.filter((_, at) => drafts[at]?.isSaved === false)
}

async function idsHere(log: EventLog): Promise<readonly string[]> {
  const kept = await log.setting(IDS)
  try {
    const ids: unknown = kept.kind === 'kept' && kept.value !== null ? JSON.parse(kept.value) : []
    return Array.isArray(ids) ? ids.filter((id) => typeof id === 'string') : []
  } catch {
    return []
  }
}

/** Null where there is none, or none that can be read. */
export async function deviceDraft(log: EventLog, id: string): Promise<DeviceDraft | null> {
  const kept = await log.setting(key(id))
  if (kept.kind !== 'kept' || kept.value === null || kept.value === '') return null
  try {
    const { text, revision, base, isSaved } = JSON.parse(kept.value) as Record<string, unknown>
    return typeof text === 'string' && typeof revision === 'number' && typeof isSaved === 'boolean'
      ? { text, revision, base: typeof base === 'string' ? base : null, isSaved }
      : null
  } catch {
    return null
  }
}
