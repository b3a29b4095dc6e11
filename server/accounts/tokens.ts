/** Things made by chance that let somebody in: long ones that a browser keeps, short ones that a person types. */
import { randomBytes, randomInt } from 'node:crypto'

/** 256 bits, for cookies and links. */
export function newToken(): string {
  return randomBytes(32).toString('base64url')
}

/** No I, L, O or U, which are misread or make words (Crockford's base 32). */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'

/** `ABCD-EFGH`: 40 bits. Lives for minutes, and guesses are slowed down. */
export function newCode(): string {
  const letters = Array.from({ length: 8 }, () => LETTERS[randomInt(LETTERS.length)]).join('')
  return `${letters.slice(0, 4)}-${letters.slice(4)}`
}

/** As it was made, however somebody typed it. */
export function typedCode(typed: string): string {
  const letters = typed.toUpperCase().replace(/[\s-]/g, '').replace(/[IL]/g, '1').replace(/O/g, '0').slice(0, 20)
  return `${letters.slice(0, 4)}-${letters.slice(4)}`
}
