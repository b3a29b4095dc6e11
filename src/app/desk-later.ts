/** The one desk of this page, loaded when somebody first asks for it. */
import { once } from './once.ts'
import type { DeskParts, RecordsDesk } from './records-desk.ts'

export function deskLater(parts: Omit<DeskParts, 'link'>): () => Promise<RecordsDesk> {
  return once(async () => {
    const [{ openRecordsDesk }, link] = await Promise.all([import('./records-desk.ts'), parts.ports.records()])
    return openRecordsDesk({ ...parts, link })
  })
}
