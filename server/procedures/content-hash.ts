/** The identity of a procedure version: SHA-256 over its RFC 8785 canonical JSON. */
import { createHash } from 'node:crypto'
import canonicalize from 'canonicalize'

export function canonicalJson(value: unknown): string {
  const text = canonicalize(value)
  if (text === undefined) throw new TypeError('this value has no JSON form')
  return text
}

/** Lower-case hex. */
export function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex')
}
