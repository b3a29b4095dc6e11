/** The shop's people on its server: who asks, who may come in, and who did what. Times are trusted epoch ms. */
import type { LinkKind, Role } from '../core/record/account-kinds.ts'
import type { Answered } from './server.ts'

/** What the server knows of whoever asks. */
export interface Me {
  readonly shop: 'unowned' | 'owned'
  /** Null for a browser that is not paired. */
  readonly device: { readonly id: string; readonly name: string } | null
  /** Somebody signed in with a password; `elevatedMs` is how long it still stands for authority. */
  readonly person: {
    readonly id: string
    readonly name: string
    readonly role: Role
    readonly elevatedMs: number
  } | null
  readonly link: { readonly kind: LinkKind; readonly note: string; readonly machine: string | null } | null
}

export interface PersonListing {
  readonly id: string
  readonly name: string
  readonly role: Role
  readonly isActive: boolean
  readonly hasSecret: boolean
}

export interface DeviceListing {
  readonly id: string
  readonly name: string
  readonly pairedAt: number
  readonly seenAt: number
}

export interface LinkListing {
  readonly id: string
  readonly kind: LinkKind
  readonly note: string
  readonly machine: string | null
  readonly madeBy: string
  readonly expiresAt: number
}

/** Somebody who may be at a machine. */
export interface NameListing {
  readonly id: string
  readonly name: string
  /** With a password, for authority. Others say who they are with a PIN, where they have one. */
  readonly signsIn: boolean
  readonly hasPin: boolean
}

export interface DeedListing {
  readonly id: number
  readonly at: number
  readonly by: string
  readonly device: string
  readonly what: string
  readonly about: string
}

export interface NewLink {
  readonly kind: LinkKind
  readonly note: string
  readonly machine: string | null
  readonly days: number
}

export interface MadeCode {
  readonly code: string
  readonly expiresAt: number
}

export interface PersonChange {
  readonly name?: string
  readonly role?: Role
  readonly isActive?: boolean
}

type Done = Promise<Answered<unknown>>

export interface AccountsLink {
  me(): Promise<Answered<Me>>
  signIn(name: string, password: string): Promise<Answered<Me>>
  signOut(): Promise<Answered<Me>>
  signOutEverywhere(): Promise<Answered<Me>>
  /** Gives the password again: authority for some minutes. */
  elevate(password: string): Promise<Answered<Me>>
  changePassword(password: string, next: string): Promise<Answered<Me>>
  /** With a code of the server's console it makes an owner; with one from an owner it sets one's own password. */
  usePasswordCode(code: string, name: string, password: string): Promise<Answered<Me>>
  names(): Promise<Answered<readonly NameListing[]>>
  /** Gives the id of the check, for the entry that names the person. */
  checkPin(person: string, pin: string): Promise<Answered<string>>
  people(): Promise<Answered<readonly PersonListing[]>>
  addPerson(name: string, role: Role): Done
  changePerson(id: string, change: PersonChange): Done
  setPin(id: string, pin: string): Done
  passwordCode(id: string): Promise<Answered<MadeCode>>
  devices(): Promise<Answered<readonly DeviceListing[]>>
  pairingCode(): Promise<Answered<MadeCode>>
  pair(code: string, name: string): Promise<Answered<Me>>
  removeDevice(id: string): Done
  links(): Promise<Answered<readonly LinkListing[]>>
  /** Gives the token, which is shown once. */
  makeLink(link: NewLink): Promise<Answered<string>>
  endLink(id: string): Done
  openLink(token: string): Promise<Answered<Me>>
  /** The newest first; older than `before`, 0 for all. */
  deeds(before: number): Promise<Answered<readonly DeedListing[]>>
}
