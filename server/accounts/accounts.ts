/** What is kept about who may do what. Asynchronous, so that a shared database can stand behind it too. Times are trusted epoch ms. */
import type { LinkKind, Role } from '../../src/core/record/account-kinds.ts'
import type { Person } from './person.ts'
import type { Secrets } from './secrets.ts'

/** A tablet or another browser that belongs to the shop. */
export interface Device {
  readonly id: string
  readonly name: string
  readonly pairedAt: number
  readonly seenAt: number
}

export interface Session {
  /** As kept, never the token itself. */
  readonly token: string
  readonly person: Person
  readonly begunAt: number
  readonly seenAt: number
  readonly elevatedUntil: number
}

/** A way in for reading that ends by itself. */
export interface Link {
  readonly id: string
  readonly kind: LinkKind
  /** Whom it is for. */
  readonly note: string
  /** The one machine whose records it shows; null for all of the shop. */
  readonly machine: string | null
  readonly madeBy: string
  readonly madeAt: number
  readonly expiresAt: number
}

/** `owner` makes an owner or gives one a new password, `password` sets that of one person, `pairing` lets a device in. */
export type CodeKind = 'owner' | 'password' | 'pairing'

/** No code is good for longer, ms. */
export const LONGEST_CODE_MS = 30 * 24 * 3600_000

export interface Code {
  readonly kind: CodeKind
  /** Who made it; for `password` whose it is; null from the console. */
  readonly person: string | null
  readonly expiresAt: number
}

/** A PIN that was right, until the run that it was given for names it. */
export interface NameCheck {
  readonly id: string
  readonly person: string
  readonly name: string
  readonly at: number
  /** Id of the paired device, or of the person signed in, at which it was typed; null where that was not kept yet. */
  readonly givenTo: string | null
}

export interface Tried {
  readonly failures: number
  readonly lastAt: number
  readonly blockedUntil: number
}

export interface Deed {
  readonly at: number
  /** Who did it: a person's name, or empty where nobody had signed in. */
  readonly by: string
  /** The paired device it came from; empty for others. */
  readonly device: string
  readonly what: DeedKind
  /** Whom or what it was done to, in words. */
  readonly about: string
}

export const DEED_KINDS = [
  'owner-made',
  'owner-code-used',
  'signed-in',
  'sign-in-refused',
  'signed-out',
  'signed-out-everywhere',
  'password-given-again',
  'password-set',
  'pin-set',
  'pin-refused',
  'person-added',
  'person-changed',
  'person-left',
  'person-back',
  'password-code-made',
  'pairing-code-made',
  'device-paired',
  'device-removed',
  'link-made',
  'link-ended',
  'link-opened',
  'record-signed',
  'procedure-published',
  'procedure-put-away'
] as const
export type DeedKind = (typeof DEED_KINDS)[number]

export interface Accounts {
  readonly secrets: Secrets
  /** Whether somebody owns this shop. */
  hasOwner(): Promise<boolean>
  /** By name. Those who have left are among them. */
  people(): Promise<readonly Person[]>
  person(id: string): Promise<Person | null>
  personNamed(name: string): Promise<Person | null>
  /** False when the name is taken. */
  addPerson(person: { readonly id: string; readonly name: string; readonly role: Role }, at: number): Promise<boolean>
  /** False when the name is taken. Who may no longer come in has no sessions left; a code for the former role is none. */
  changePerson(person: Pick<Person, 'id' | 'name' | 'role' | 'isActive'>, at: number): Promise<boolean>
  secretOf(id: string): Promise<string | null>
  setSecret(id: string, kept: string | null): Promise<void>

  startSession(session: Omit<Session, 'person'> & { readonly person: string }): Promise<void>
  session(token: string): Promise<Session | null>
  touchSession(token: string, seenAt: number): Promise<void>
  endSession(token: string): Promise<void>
  endSessionsOf(person: string): Promise<void>

  addDevice(device: Device & { readonly token: string }): Promise<void>
  device(token: string): Promise<Device | null>
  touchDevice(id: string, seenAt: number): Promise<void>
  devices(): Promise<readonly Device[]>
  /** Null when there is none. */
  endDevice(id: string, at: number): Promise<Device | null>

  addLink(link: Link & { readonly token: string }): Promise<void>
  link(token: string): Promise<Link | null>
  links(): Promise<readonly Link[]>
  endLink(id: string, at: number): Promise<Link | null>

  addCode(code: Code & { readonly token: string }): Promise<void>
  /** What it is good for, while it lives. One that would live longer than any is of a clock that was wrong, and none. */
  code(token: string, now: number): Promise<Code | null>
  /** Takes it out of use; false when somebody else just did. */
  useCode(token: string): Promise<boolean>
  /** Takes all of a kind out of use that were made for this person, or by the console (null). */
  dropCodes(kind: CodeKind, person: string | null): Promise<void>

  addCheck(check: NameCheck): Promise<void>
  check(id: string): Promise<NameCheck | null>

  /**
   * What was tried so far, by key, and in the same go what is kept from now on: null forgets one. Nobody comes in
   * between, or many guesses at once would all be the first. `change` gives null where nothing changes.
   */
  changeTried(
    keys: readonly string[],
    change: (known: readonly (Tried | null)[]) => readonly (Tried | null)[] | null
  ): Promise<readonly (Tried | null)[]>

  note(deed: Deed): Promise<void>
  /** The newest first, older than `before` (an `id`; 0 for the newest of all). */
  deeds(before: number, most: number): Promise<readonly (Deed & { readonly id: number })[]>
}
