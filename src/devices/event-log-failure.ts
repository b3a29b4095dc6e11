import type { LogFailure } from '../ports/event-log.ts'

export interface Failed {
  readonly kind: 'failed'
  readonly reason: LogFailure
  readonly detail: string
}

const REASONS: Readonly<Record<string, LogFailure>> = {
  QuotaExceededError: 'full',
  VersionError: 'newer-version'
}

export function logFailure(fault: unknown): Failed {
  const { name, message } = fault instanceof Error ? fault : { name: 'Unknown', message: String(fault) }
  return { kind: 'failed', reason: REASONS[name] ?? 'unavailable', detail: `${name}: ${message}` }
}

/**
 * Faults of the connection rather than of the data: iOS ends its database server in the background ("Connection to
 * Indexed Database server lost", webkit.org/b/277615), and a handle that was closed under a page says InvalidStateError.
 */
export function connectionLost(fault: unknown): boolean {
  return fault instanceof Error && ['InvalidStateError', 'UnknownError', 'AbortError'].includes(fault.name)
}
