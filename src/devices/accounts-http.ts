/** The shop's people over HTTP; loaded by whoever first asks for them. */
import {
  readCheck,
  readDeeds,
  readDevices,
  readLinks,
  readMadeCode,
  readMe,
  readNames,
  readPeople,
  readToken
} from '../core/record/wire-accounts.ts'
import type { AccountsLink } from '../ports/accounts.ts'
import type { Answered } from '../ports/server.ts'
import { askServer, type HttpOptions } from './ask-server.ts'
import { sending } from './sending.ts'

export function accountsOverHttp(options: HttpOptions = {}): AccountsLink {
  const ask = askServer(options)

  const part = encodeURIComponent
  /** Any answer will do: what came of it is asked for anew. */
  const done = (path: string, ...sent: Parameters<typeof sending>) => ask(path, () => true, sending(...sent))

  async function only<Whole, Part>(
    asked: Promise<Answered<Whole>>,
    of: (whole: Whole) => Part
  ): Promise<Answered<Part>> {
    const answered = await asked
    return answered.kind === 'answered' ? { kind: 'answered', value: of(answered.value) } : answered
  }

  return {
    me: () => ask('/api/me', readMe),
    signIn: (name, password) => ask('/api/session', readMe, sending('POST', { name, password })),
    signOut: () => ask('/api/session', readMe, sending('DELETE')),
    signOutEverywhere: () => ask('/api/me/sessions', readMe, sending('DELETE')),
    elevate: (password) => ask('/api/session/elevation', readMe, sending('POST', { password })),
    changePassword: (password, next) => ask('/api/me/password', readMe, sending('PUT', { password, next })),
    usePasswordCode: (code, name, password) =>
      ask('/api/password', readMe, sending('POST', { code, password, ...(name === '' ? {} : { name }) })),
    names: () => only(ask('/api/names', readNames), ({ names }) => names),
    checkPin: (person, pin) =>
      only(ask(`/api/names/${part(person)}/check`, readCheck, sending('POST', { pin })), ({ check }) => check),
    people: () => only(ask('/api/people', readPeople), ({ people }) => people),
    addPerson: (name, role) => done('/api/people', 'POST', { name, role }),
    changePerson: (id, change) => done(`/api/people/${part(id)}`, 'PATCH', change),
    setPin: (id, pin) => done(`/api/people/${part(id)}/pin`, 'PUT', { pin }),
    passwordCode: (id) => ask(`/api/people/${part(id)}/password-code`, readMadeCode, sending('POST')),
    devices: () => only(ask('/api/devices', readDevices), ({ devices }) => devices),
    pairingCode: () => ask('/api/pairing-codes', readMadeCode, sending('POST')),
    pair: (code, name) => ask('/api/devices', readMe, sending('POST', { code, name })),
    removeDevice: (id) => done(`/api/devices/${part(id)}`, 'DELETE'),
    links: () => only(ask('/api/links', readLinks), ({ links }) => links),
    makeLink: (link) => only(ask('/api/links', readToken, sending('POST', link)), ({ token }) => token),
    endLink: (id) => done(`/api/links/${part(id)}`, 'DELETE'),
    openLink: (token) => ask('/api/links/open', readMe, sending('POST', { token })),
    deeds: (before) => only(ask(`/api/deeds?before=${before}`, readDeeds), ({ deeds }) => deeds)
  }
}
