/** Where people sign in, and where supervisors look after people, devices and links. Loaded when somebody first asks for it. */
import { atom, type ReadableAtom } from 'nanostores'
import type { Role } from '../core/record/account-kinds.ts'
import type {
  AccountsLink,
  DeedListing,
  DeviceListing,
  LinkListing,
  Me,
  NameListing,
  NewLink,
  PersonChange,
  PersonListing
} from '../ports/accounts.ts'
import type { Clock } from '../ports/clock.ts'
import { serverSaid } from './server-said.ts'
import { readNames } from '../core/record/wire-accounts.ts'
import type { EventLog } from '../ports/event-log.ts'
import type { Answered, ServerFailure } from '../ports/server.ts'

export type { DeviceListing, LinkListing, Me, NameListing, PersonListing } from '../ports/accounts.ts'

/** What became of the last thing that somebody did. */
export type PeopleNotice =
  | { readonly kind: 'done' }
  | { readonly kind: 'failed'; readonly failure: ServerFailure }
  /** To be told to somebody, or typed at another device; shown until something else is done. */
  | { readonly kind: 'code'; readonly for: 'password' | 'pairing'; readonly whose: string; readonly code: string }
  | { readonly kind: 'link'; readonly of: NewLink; readonly token: string }

/** What became of a PIN. Whatever it is, the run can begin. */
export type NameCheckOutcome =
  | { readonly kind: 'right'; readonly check: string }
  | { readonly kind: 'away' }
  | { readonly kind: 'refused'; readonly why: string }

export interface Lists {
  readonly people: readonly PersonListing[]
  readonly devices: readonly DeviceListing[]
  readonly links: readonly LinkListing[]
}

export interface PeopleDesk {
  /** Null while nobody has asked, or the server could not be. */
  readonly $me: ReadableAtom<Me | null>
  /** A password was given within the last minutes. */
  readonly $elevated: ReadableAtom<boolean>
  readonly $notice: ReadableAtom<PeopleNotice | null>
  /** Null for who may not see them. */
  readonly $lists: ReadableAtom<Lists | null>
  readonly $deeds: ReadableAtom<readonly DeedListing[] | null>
  /** Whom to choose from when somebody signs in. */
  readonly $names: ReadableAtom<readonly NameListing[]>
  look(): Promise<void>
  /** Only the names: from the server, or as this device heard them last. */
  lookNames(): Promise<void>
  checkPin(person: string, pin: string): Promise<NameCheckOutcome>
  signIn(name: string, password: string): Promise<void>
  elevate(password: string): Promise<void>
  useCode(code: string, name: string, password: string): Promise<void>
  changePassword(password: string, next: string): Promise<void>
  signOut(): Promise<void>
  signOutEverywhere(): Promise<void>
  addPerson(name: string, role: Role, pin: string): Promise<void>
  changePerson(id: string, change: PersonChange): Promise<void>
  setPin(id: string, pin: string): Promise<void>
  passwordCode(person: PersonListing): Promise<void>
  pairingCode(): Promise<void>
  pair(code: string, name: string): Promise<void>
  /** For a supervisor at the very device. */
  pairHere(name: string): Promise<void>
  removeDevice(id: string): Promise<void>
  makeLink(link: NewLink): Promise<void>
  endLink(id: string): Promise<void>
  openLink(token: string): Promise<void>
  /** The log of who did what; each time further back. */
  moreDeeds(): Promise<void>
}

export interface PeopleDeskParts {
  readonly link: AccountsLink
  readonly clock: Clock
  readonly log: EventLog
  /** This browser has just come into the shop, or left it. */
  readonly onPaired: () => void
}

const KEPT_NAMES = 'names'

export function openPeopleDesk({ link, clock, log, onPaired }: PeopleDeskParts): PeopleDesk {
  const $me = atom<Me | null>(null)
  const $elevated = atom(false)
  const $notice = atom<PeopleNotice | null>(null)
  const $lists = atom<Lists | null>(null)
  const $deeds = atom<readonly DeedListing[] | null>(null)
  const $names = atom<readonly NameListing[]>([])
  let endElevation = () => {}

  function know(me: Me): void {
    const before = $me.get()
    $me.set(me)
    const left = me.person?.elevatedMs ?? 0
    endElevation()
    $elevated.set(left > 0)
    endElevation = left > 0 ? clock.after(left, () => $elevated.set(false)) : () => {}
    if (me.person?.role !== 'owner') $deeds.set(null)
    if (before && (before.device?.id !== me.device?.id || before.shop !== me.shop)) onPaired()
  }

  async function fetchLists(): Promise<void> {
    const me = $me.get()
    if (me?.shop !== 'owned') {
      $lists.set(null)
      return $names.set([])
    }
    if (!me.person) {
      $lists.set(null)
      const names = await link.names()
      return $names.set(names.kind === 'answered' ? names.value : [])
    }
    const [people, devices, links] = await Promise.all([link.people(), link.devices(), link.links()])
    if (people.kind === 'failed' || devices.kind === 'failed' || links.kind === 'failed') return $lists.set(null)
    $lists.set({ people: people.value, devices: devices.value, links: links.value })
  }

  function failed(failure: ServerFailure): void {
    $notice.set({ kind: 'failed', failure })
  }

  /** What changes who is asking. */
  async function becoming(asked: Promise<Answered<Me>>): Promise<boolean> {
    const answered = await asked
    if (answered.kind === 'failed') {
      failed(answered.failure)
      return false
    }
    $notice.set({ kind: 'done' })
    know(answered.value)
    await fetchLists()
    return true
  }

  /** What changes a list. Where the password has grown old meanwhile, that shows. */
  async function changing(asked: Promise<Answered<unknown>>): Promise<boolean> {
    const answered = await asked
    if (answered.kind === 'failed') failed(answered.failure)
    else $notice.set({ kind: 'done' })
    const me = await link.me()
    if (me.kind === 'answered') know(me.value)
    await fetchLists()
    return answered.kind === 'answered'
  }

  return {
    $me,
    $elevated,
    $notice,
    $lists,
    $deeds,
    $names,
    async look() {
      $notice.set(null)
      const me = await link.me()
      if (me.kind === 'failed') return failed(me.failure)
      know(me.value)
      await fetchLists()
    },
    async lookNames() {
      const names = await link.names()
      if (names.kind === 'answered') {
        $names.set(names.value)
        // Names only: nothing that a PIN could be guessed from is ever on a device.
        await log.keepSetting(KEPT_NAMES, JSON.stringify(names.value))
      } else if (names.failure.kind === 'unreachable') {
        const kept = await log.setting(KEPT_NAMES)
        $names.set(kept.kind === 'kept' ? namesIn(kept.value) : [])
      }
    },
    async checkPin(person, pin) {
      const checked = await link.checkPin(person, pin)
      if (checked.kind === 'answered') return { kind: 'right', check: checked.value }
      return checked.failure.kind === 'unreachable'
        ? { kind: 'away' }
        : { kind: 'refused', why: serverSaid(checked.failure) }
    },
    signIn: async (name, password) => void (await becoming(link.signIn(name, password))),
    elevate: async (password) => void (await becoming(link.elevate(password))),
    useCode: async (code, name, password) => void (await becoming(link.usePasswordCode(code, name, password))),
    changePassword: async (password, next) => void (await becoming(link.changePassword(password, next))),
    signOut: async () => void (await becoming(link.signOut())),
    signOutEverywhere: async () => void (await becoming(link.signOutEverywhere())),
    async addPerson(name, role, pin) {
      if (!(await changing(link.addPerson(name, role)))) return
      const added = $lists.get()?.people.find((person) => person.name === name)
      if (added && role === 'operator' && pin !== '') await changing(link.setPin(added.id, pin))
      if (added && role !== 'operator') await this.passwordCode(added)
    },
    changePerson: async (id, change) => void (await changing(link.changePerson(id, change))),
    setPin: async (id, pin) => void (await changing(link.setPin(id, pin))),
    async passwordCode({ id, name }) {
      const made = await link.passwordCode(id)
      if (made.kind === 'failed') return failed(made.failure)
      $notice.set({ kind: 'code', for: 'password', whose: name, code: made.value.code })
    },
    async pairingCode() {
      const made = await link.pairingCode()
      if (made.kind === 'failed') return failed(made.failure)
      $notice.set({ kind: 'code', for: 'pairing', whose: '', code: made.value.code })
    },
    pair: async (code, name) => void (await becoming(link.pair(code, name))),
    async pairHere(name) {
      const made = await link.pairingCode()
      if (made.kind === 'failed') return failed(made.failure)
      await becoming(link.pair(made.value.code, name))
    },
    removeDevice: async (id) => void (await changing(link.removeDevice(id))),
    async makeLink(wanted) {
      const made = await link.makeLink(wanted)
      if (made.kind === 'failed') return failed(made.failure)
      await fetchLists()
      $notice.set({ kind: 'link', of: wanted, token: made.value })
    },
    endLink: async (id) => void (await changing(link.endLink(id))),
    openLink: async (token) => void (await becoming(link.openLink(token))),
    async moreDeeds() {
      const known = $deeds.get() ?? []
      const asked = await link.deeds(known.at(-1)?.id ?? 0)
      if (asked.kind === 'failed') return failed(asked.failure)
      $deeds.set([...known, ...asked.value])
    }
  }
}

/** What cannot be read is none; the server is asked again the next time. */
function namesIn(text: string | null): readonly NameListing[] {
  try {
    return readNames({ names: JSON.parse(text ?? '[]') as unknown })?.names ?? []
  } catch {
    return []
  }
}
