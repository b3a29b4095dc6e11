/** A secret beside the store, so that a stolen store alone lets nobody try passwords. Made once, never sent or logged. */
import { randomBytes } from 'node:crypto'
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

export const PEPPER_FILE = 'pepper'
const BYTES = 32

export type OpenedPepper =
  /** `isNew`: whatever was set with an earlier one no longer fits. */
  | { readonly kind: 'open'; readonly pepper: Buffer; readonly isNew: boolean }
  | { readonly kind: 'failed'; readonly what: string; readonly mend: string }

export function openPepper(folder: string): OpenedPepper {
  const file = join(folder, PEPPER_FILE)
  try {
    const isNew = !existsSync(file)
    if (isNew) {
      const half = `${file}.half`
      writeFileSync(half, randomBytes(BYTES).toString('hex'), { mode: 0o600, flush: true })
      renameSync(half, file)
    }
    const text = readFileSync(file, 'utf8').trim()
    if (!/^[0-9a-f]{64}$/.test(text)) throw new Error('it is cut off or changed')
    return { kind: 'open', pepper: Buffer.from(text, 'hex'), isNew }
  } catch (error) {
    return {
      kind: 'failed',
      what: `The file ${file} cannot be used: ${error instanceof Error ? error.message : String(error)}.`,
      mend: 'It was left as it is. Put a backup in its place, or move it away: then every password, PIN and pairing is made anew.'
    }
  }
}
