/** What a page may know about whoever asks. */
import type { Context } from 'hono'
import type { Caller } from '../accounts/caller.ts'

/** `caller` when it has just changed. */
export function whoAsks(context: Context, now: number, changed: Partial<Caller> = {}) {
  const { shop, device, session, link } = { ...context.get('caller'), ...changed }
  return {
    shop,
    device: device && { id: device.id, name: device.name },
    person: session && {
      id: session.person.id,
      name: session.person.name,
      role: session.person.role,
      elevatedMs: Math.max(0, session.elevatedUntil - now)
    },
    link: link && { kind: link.kind, note: link.note, machine: link.machine, expiresAt: link.expiresAt }
  }
}
