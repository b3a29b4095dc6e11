import { anyEvent } from '../../tests/helpers/any-event.ts'
import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { canonicalEvent, canonicalJson, sha256 } from './content-hash.ts'

const double = (hex: string): number => new DataView(Uint8Array.from(Buffer.from(hex, 'hex')).buffer).getFloat64(0)

describe('canonical JSON', () => {
  test('of the sample in RFC 8785, 3.2.2 is the bytes in 3.2.4', () => {
    const sample = String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`
    const bytes =
      '7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a5b3333333333333333332e333333333333332c31652b33302c342e352c302e3030322c31652d32375d2c22737472696e67223a22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f227d'
    expect(Buffer.from(canonicalJson(JSON.parse(sample))).toString('hex')).toBe(bytes)
  })

  test('sorts keys by UTF-16 code units, as in RFC 8785, 3.2.3', () => {
    const sample = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis'
    }
    const order = [...canonicalJson(sample).matchAll(/:"([^"]*)"/g)].map(([, words]) => words)
    expect(order).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh'
    ])
  })

  // RFC 8785, appendix B: IEEE 754 bits and the JSON they become.
  test.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555554', '333333333.33333325'],
    ['41b3de4355555555', '333333333.3333333'],
    ['41b3de4355555556', '333333333.3333334'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2']
  ])('writes the number %s as %s', (bits, json) => {
    expect(canonicalJson(double(bits))).toBe(json)
  })

  test.each(['7fffffffffffffff', '7ff0000000000000', 'fff0000000000000'])(
    'refuses %s, which JSON has no form for',
    (bits) => {
      expect(() => canonicalJson(double(bits))).toThrow()
    }
  )

  test('refuses what has no JSON form, and half a character', () => {
    expect(() => canonicalJson(undefined)).toThrow(TypeError)
    expect(() => canonicalJson('\ud83d')).toThrow()
    expect(() => canonicalJson({ '\ude00': 1 })).toThrow()
  })

  test('means the same, and is the same whatever the order of keys', () => {
    const reversed = (value: unknown): unknown =>
      Array.isArray(value)
        ? value.map(reversed)
        : typeof value === 'object' && value !== null
          ? Object.fromEntries(
              Object.entries(value)
                .toReversed()
                .map(([key, inner]) => [key, reversed(inner)])
            )
          : value
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 3 }), (value) => {
        const plain = JSON.parse(JSON.stringify(value)) as unknown
        expect(JSON.parse(canonicalJson(plain))).toEqual(plain)
        expect(canonicalJson(reversed(plain))).toBe(canonicalJson(plain))
      })
    )
  })
})

// FIPS 180-4 example values for SHA-256 (csrc.nist.gov, examples with intermediate values; SHAVS for the empty message).
test.each([
  ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1'
  ],
  ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0']
])('SHA-256 of %#', (message, digest) => {
  expect(sha256(message)).toBe(digest)
})

test('a hash is over UTF-8, in which RFC 3629 writes é as C3 A9', () => {
  const bytes = createHash('sha256').update(Uint8Array.of(0xc3, 0xa9)).digest('hex')
  expect(sha256('\u00e9')).toBe(bytes)
})

test('the short way gives the same canonical form', () => {
  const key = fc.oneof(fc.string({ maxLength: 3 }), fc.constantFrom('10', '2', 'a', 'A', '__proto__'))
  const anyJson = fc.letrec((tie) => ({
    value: fc.oneof(
      fc.string(),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.boolean(),
      fc.constant(null),
      fc.array(tie('value'), { maxLength: 3 }),
      tie('object')
    ),
    object: fc.dictionary(key, tie('value'), { maxKeys: 4 })
  })).object
  fc.assert(
    fc.property(fc.oneof(anyEvent, anyJson), (value) => {
      const sent: unknown = JSON.parse(JSON.stringify(value))
      expect(canonicalEvent(sent as object)).toBe(canonicalJson(sent))
    })
  )
})
