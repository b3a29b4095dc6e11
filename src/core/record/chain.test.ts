import { createHash } from 'node:crypto'
import canonicalize from 'canonicalize'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { headText, linkOf, NO_LINK } from './chain.ts'

const sha256 = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex')
const words = fc.string({ unit: 'grapheme', maxLength: 12 })
const number = fc.double({ min: 0, max: 8.64e15, noNaN: true })

test('a link is the hash of the canonical form of what it binds', () => {
  const linked = fc.record({
    site: words,
    place: fc.integer({ min: 1 }),
    digest: words,
    receivedAt: number,
    previous: words
  })
  fc.assert(
    fc.property(linked, (bound) => {
      // The library is by the author of RFC 8785.
      expect(linkOf(bound, sha256)).toBe(sha256(canonicalize(bound) ?? ''))
    })
  )
})

test('a head is signed over its canonical form', () => {
  fc.assert(
    fc.property(fc.record({ site: words, place: fc.integer({ min: 1 }), link: words, at: number }), (head) => {
      expect(headText(head)).toBe(canonicalize(head))
    })
  )
})

test('before the first link stand zeros, as many as a hash has digits', () => {
  expect(NO_LINK).toHaveLength(sha256('').length)
})
