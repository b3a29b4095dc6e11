/** The part of `navigator.storage` that is used here. */
export interface StorageKeeper {
  persisted(): Promise<boolean>
  persist(): Promise<boolean>
  estimate?(): Promise<{ usage?: number; quota?: number }>
}

export interface StorageReport {
  /** `may-be-cleared`: the browser may delete the run to make room, Safari also after seven days without use. */
  readonly persistence: 'kept' | 'may-be-cleared' | 'unknown'
  /** Part of the quota in use, 0 to 1; null where the browser does not tell. */
  readonly used: number | null
}

/** Asks the browser never to clear this site's storage by itself. Never rejects; a refusal may change after an install. */
export async function askToKeepStorage(storage: StorageKeeper | null): Promise<StorageReport> {
  if (!storage) return { persistence: 'unknown', used: null }
  const [persistence, used] = await Promise.all([persist(storage), usedPart(storage)])
  return { persistence, used }
}

async function persist(storage: StorageKeeper): Promise<StorageReport['persistence']> {
  try {
    return (await storage.persisted()) || (await storage.persist()) ? 'kept' : 'may-be-cleared'
  } catch {
    return 'unknown'
  }
}

async function usedPart(storage: StorageKeeper): Promise<number | null> {
  try {
    const { usage, quota } = (await storage.estimate?.()) ?? {}
    return usage === undefined || !quota ? null : usage / quota
  } catch {
    return null
  }
}
