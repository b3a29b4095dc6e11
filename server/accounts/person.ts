/** People of the shop, what they may be, and how a name is compared. */
import type { Role } from '../../src/core/record/account-kinds.ts'

export interface Person {
  readonly id: string
  readonly name: string
  readonly role: Role
  /** False for somebody who has left: the records still name them. */
  readonly isActive: boolean
  /** Whether a PIN or a password has been set. */
  readonly hasSecret: boolean
}

/** Two names are the same person's when these are: however they are written, and whatever the keyboard made of an accent. */
export function nameKey(name: string): string {
  return name.normalize('NFKC').trim().replace(/\s+/gu, ' ').toLowerCase()
}

export function hasAuthority({ role }: Pick<Person, 'role'>): boolean {
  return role !== 'operator'
}
