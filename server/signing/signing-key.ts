/** The key that signs the heads of chains: made once, kept in the data folder, never sent anywhere. */
import { createPrivateKey, createPublicKey, generateKeyPairSync, sign, verify, type KeyObject } from 'node:crypto'
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { sha256 } from '../procedures/content-hash.ts'

export interface Signer {
  /** SHA-256 of `publicKey`. */
  readonly keyId: string
  /** SubjectPublicKeyInfo, base64. */
  readonly publicKey: string
  /** Ed25519 over the text's UTF-8, base64. */
  sign(text: string): string
}

export type OpenedKey =
  | { readonly kind: 'open'; readonly signer: Signer }
  | { readonly kind: 'failed'; readonly what: string; readonly mend: string }

export function openSigningKey(folder: string): OpenedKey {
  const file = join(folder, 'signing-key.pem')
  try {
    if (!existsSync(file)) keep(file, generateKeyPairSync('ed25519').privateKey)
    const key = createPrivateKey(readFileSync(file))
    if (key.asymmetricKeyType !== 'ed25519') throw new Error('it is of another kind')
    return { kind: 'open', signer: signerOf(key) }
  } catch (error) {
    return {
      kind: 'failed',
      what: `The signing key ${file} cannot be used: ${error instanceof Error ? error.message : String(error)}.`,
      mend: 'It was left as it is. Put a backup in its place, or move it away to get a new one: older exports keep the old key.'
    }
  }
}

/** Whole or not at all: half a key would be no key. */
function keep(file: string, key: KeyObject): void {
  const half = `${file}.half`
  writeFileSync(half, key.export({ type: 'pkcs8', format: 'pem' }), { mode: 0o600, flush: true })
  renameSync(half, file)
}

export function signerOf(key: KeyObject): Signer {
  const publicKey = createPublicKey(key).export({ type: 'spki', format: 'der' }).toString('base64')
  return {
    keyId: sha256(publicKey),
    publicKey,
    sign: (text) => sign(null, Buffer.from(text, 'utf8'), key).toString('base64')
  }
}

/** False too for a key or a signature that is none. */
export function isSigned(text: string, signature: string, publicKey: string): boolean {
  try {
    const key = createPublicKey({ key: Buffer.from(publicKey, 'base64'), format: 'der', type: 'spki' })
    return verify(null, Buffer.from(text, 'utf8'), key, Buffer.from(signature, 'base64'))
  } catch {
    return false
  }
}

/** One that is gone with the process. */
export function passingSigner(): Signer {
  return signerOf(generateKeyPairSync('ed25519').privateKey)
}
