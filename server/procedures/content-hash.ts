/** The identity of a procedure version: SHA-256 over its RFC 8785 canonical JSON. */
import { hash } from 'node:crypto'
import canonicalize from 'canonicalize'

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
 * The same in less than half the time, by sorting keys and nothing else: for events, of which there are many. Half a
 * character is not refused here, and a key that begins with a digit would stand in another place, so what has one goes
 * the long way.
 */
export function canonicalEvent(event: object): string {
  const sorted = keysSorted(event)
  return sorted === null ? canonicalJson(event) : JSON.stringify(sorted)
}

/** The same object where its keys stand in order already; null when one begins with a digit. */
function keysSorted(value: object): object | null {
  let last = ''
  let isSorted = true
  for (const key in value) {
    const part: unknown = (value as Readonly<Record<string, unknown>>)[key]
    if (startsWithDigit(key)) return null
    if (key < last || (typeof part === 'object' && part !== null)) isSorted = false
    last = key
  }
  return isSorted ? value : withKeysSorted(value)
}

function withKeysSorted(value: object): object | null {
  // Without a prototype, whose name would be no key like others.
  const sorted = Object.create(null) as Record<string, unknown>
  for (const key of Object.keys(value).sort()) {
    const part: unknown = (value as Readonly<Record<string, unknown>>)[key]
    if (typeof part !== 'object' || part === null) sorted[key] = part
    else if (Array.isArray(part)) {
      if (part.some((one) => typeof one === 'object')) return null
      sorted[key] = part
    } else {
      const inner = keysSorted(part)
      if (inner === null) return null
      sorted[key] = inner
    }
  }
  return sorted
}

function startsWithDigit(key: string): boolean {
  const first = key.charCodeAt(0)
  return first >= FIRST_DIGIT && first <= LAST_DIGIT
}

const [FIRST_DIGIT, LAST_DIGIT] = [48, 57]
