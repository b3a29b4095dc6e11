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

/** Resolves to why it could not be kept, or null. */
export async function keepDeviceDraft(log: EventLog, id: string, draft: DeviceDraft | null): Promise<string | null> {
  const kept = await log.keepSetting(key(id), draft === null ? '' : JSON.stringify(draft))
  return kept.kind === 'kept' ? null : kept.detail
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
