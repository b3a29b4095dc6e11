import { createPrivateKey, createPublicKey } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { isSigned, openSigningKey, passingSigner, signerOf, type OpenedKey } from './signing-key.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-key-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

function signer(opened: OpenedKey) {
  if (opened.kind === 'failed') throw new Error(opened.what)
  return opened.signer
}

/** What stands before the 32 bytes of an Ed25519 private key in PKCS #8 (RFC 8410, 7). */
const PKCS8 = '302e020100300506032b657004220420'

// RFC 8032, 7.1, tests 1 and 2 (secret key, public key, message as text, signature), in hexadecimal.
test.each([
  [
    '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    '',
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b'
  ],
  [
    '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    '\u0072',
    '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00'
  ]
])('signs as RFC 8032 does with the key %s', (secret, publicHex, message, signature) => {
  const key = createPrivateKey({ key: Buffer.from(PKCS8 + secret, 'hex'), format: 'der', type: 'pkcs8' })
  const made = signerOf(key)
  expect(createPublicKey(key).export({ format: 'der', type: 'spki' }).toString('hex')).toMatch(
    new RegExp(`${publicHex}$`)
  )
  expect(Buffer.from(made.sign(message), 'base64').toString('hex')).toBe(signature)
  expect(isSigned(message, made.sign(message), made.publicKey)).toBe(true)
  expect(isSigned(`${message}x`, made.sign(message), made.publicKey)).toBe(false)
})

test('the key is made once, for its owner alone, and is the same after a restart', () => {
  const first = signer(openSigningKey(folder))
  expect(statSync(join(folder, 'signing-key.pem')).mode & 0o777).toBe(0o600)
  const again = signer(openSigningKey(folder))
  expect(again.keyId).toBe(first.keyId)
  expect(isSigned('text', again.sign('text'), first.publicKey)).toBe(true)
})

test('a key that is no key is named, and left as it is', () => {
  const file = join(folder, 'signing-key.pem')
  writeFileSync(file, 'half a key')
  expect(openSigningKey(folder)).toMatchObject({ kind: 'failed', what: expect.stringContaining(file) })
  expect(readFileSync(file, 'utf8')).toBe('half a key')
})

test('another key, and what is neither key nor signature, sign nothing', () => {
  const [one, other] = [passingSigner(), passingSigner()]
  expect(isSigned('text', one.sign('text'), other.publicKey)).toBe(false)
  expect(isSigned('text', 'nonsense', one.publicKey)).toBe(false)
  expect(isSigned('text', one.sign('text'), 'nonsense')).toBe(false)
})
