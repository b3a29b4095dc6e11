import { scryptSync, createHmac } from 'node:crypto'
import { expect, test } from 'vitest'
import { secretsWith } from './secrets.ts'

const CHEAP = { n: 2, r: 1, p: 1 }
const pepper = Buffer.alloc(32, 1)
const secrets = secretsWith(pepper, CHEAP)

async function kept(secret: string): Promise<string> {
  const text = await secrets.keep(secret)
  if (text === null) throw new Error('Nobody else asks.')
  return text
}

// RFC 7914, 12, first vector: what Node calls scrypt is that.
test('scrypt is the one of RFC 7914', () => {
  expect(scryptSync('', '', 64, { N: 16, r: 1, p: 1 }).toString('hex')).toMatch(/^77d6576238657b203b19ca42c18a0497/)
})

test('what is kept is scrypt over the peppered secret, with a salt of its own, and says at what cost', async () => {
  const text = await kept('three grey pans')
  const [kind, n, r, p, salt = '', hash] = text.split(':')
  expect([kind, n, r, p]).toEqual(['scrypt', '2', '1', '1'])
  const peppered = createHmac('sha256', pepper).update('three grey pans').digest()
  const own = scryptSync(peppered, Buffer.from(salt, 'base64url'), 32, { N: 2, r: 1, p: 1 })
  expect(hash).toBe(own.toString('base64url'))
  expect(await kept('three grey pans')).not.toBe(text)
})

test('it matches the secret alone, however its characters are composed, and only with its pepper', async () => {
  const text = await kept('cr\u00e8me br\u00fbl\u00e9e')
  expect(await secrets.matches('cre\u0300me bru\u0302le\u0301e', text)).toBe('yes')
  expect(await secrets.matches('creme brulee', text)).toBe('no')
  expect(await secretsWith(Buffer.alloc(32, 2), CHEAP).matches('cr\u00e8me br\u00fbl\u00e9e', text)).toBe('no')
  expect(await secrets.matches('', null)).toBe('no')
})

test('a secret that was kept at another cost goes on matching', async () => {
  const text = await kept('three grey pans')
  expect(await secretsWith(pepper, { n: 4, r: 2, p: 1 }).matches('three grey pans', text)).toBe('yes')
})

test('a flood of guesses is turned away rather than queued without end', async () => {
  const text = await kept('three grey pans')
  const all = await Promise.all(Array.from({ length: 60 }, () => secrets.matches('three grey pans', text)))
  expect(all.filter((one) => one === 'busy').length).toBeGreaterThan(30)
  expect(all.filter((one) => one === 'yes').length).toBeGreaterThan(20)
  expect(await secrets.matches('three grey pans', text)).toBe('yes')
})

test('a token is kept as a hash that needs the pepper', () => {
  expect(secrets.ofToken('abc')).not.toContain('abc')
  expect(secretsWith(Buffer.alloc(32, 2), CHEAP).ofToken('abc')).not.toBe(secrets.ofToken('abc'))
})
