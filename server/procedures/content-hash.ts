/** The identity of a procedure version: SHA-256 over its RFC 8785 canonical JSON. */
import { hash } from 'node:crypto'
import canonicalize from 'canonicalize'
import type { RunEvent } from '../../src/core/run/event.ts'

export function canonicalJson(value: unknown): string {
  const text = canonicalize(value)
  if (text === undefined) throw new TypeError('this value has no JSON form')
  return text
}

/** Lower-case hex. */
export function sha256(text: string): string {
  return hash('sha256', text, 'hex')
}

/**
 * The same for an event that has been read (core/record/wire.ts): its keys are known and none is a number, its lists hold
 * words only, and these are whole characters. So sorting keys is all there is to do, in less than half the time.
 */
export function canonicalEvent(event: RunEvent): string {
  return JSON.stringify(keysSorted(event))
}

function keysSorted(value: object): object {
  const sorted: Record<string, unknown> = {}
  for (const [key, part] of Object.entries(value as Record<string, unknown>).sort(([a], [b]) => (a < b ? -1 : 1))) {
    sorted[key] = typeof part === 'object' && part !== null && !Array.isArray(part) ? keysSorted(part) : part
  }
  return sorted
}
