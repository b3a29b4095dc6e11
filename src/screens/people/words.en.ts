/** English texts of the screen for people, devices and links; fetched with it. */
import type { LinkKind, Role } from '../../core/record/account-kinds.ts'

/** What the server's log can name; a younger server may name more. */
const DEEDS: Readonly<Record<string, string>> = {
  'owner-made': 'became the first owner',
  'owner-code-used': 'used a code of the server’s console',
  'signed-in': 'signed in',
  'sign-in-refused': 'wrong password',
  'signed-out': 'signed out',
  'signed-out-everywhere': 'signed out everywhere',
  'password-given-again': 'gave the password again',
  'password-set': 'set a password',
  'pin-set': 'set a PIN',
  'pin-refused': 'wrong PIN',
  'person-added': 'added a person',
  'person-changed': 'changed a person',
  'person-left': 'noted that somebody left',
  'person-back': 'noted that somebody is back',
  'password-code-made': 'made a code for a password',
  'pairing-code-made': 'made a pairing code',
  'device-paired': 'paired a device',
  'device-removed': 'removed a device',
  'link-made': 'made a link',
  'link-ended': 'ended a link',
  'link-opened': 'a link was opened',
  'record-signed': 'signed a record',
  'procedure-published': 'published a procedure',
  'procedure-put-away': 'took a procedure off the list'
}

const ROLE_WORDS: Readonly<Record<Role, string>> = { operator: 'Operator', supervisor: 'Supervisor', owner: 'Owner' }
const LINK_WORDS: Readonly<Record<LinkKind, string>> = {
  inspector: 'Reading records, for an inspector',
  calendar: 'What is due, for a calendar'
}

export const peopleWordsEn = {
  title: 'People and devices',
  away: 'The server cannot be reached. People, devices and links are kept there.',
  again: 'Ask again',
  done: 'Done.',
  roles: ROLE_WORDS,
  roleHints: {
    operator: 'cleans; says who it is with a PIN',
    supervisor: 'also signs, publishes and pairs; signs in with a password',
    owner: 'also looks after supervisors, and sees who did what'
  } satisfies Record<Role, string>,

  firstTitle: 'This shop has no owner yet',
  firstWhy:
    'Until it has one, everybody who reaches this page can clean, and nobody can sign a record, publish a procedure or let anybody in.',
  firstHow:
    'The program that runs the server shows a one-time code on its console. Whoever has it becomes the owner here, and this device is paired.',
  code: 'One-time code',
  yourName: 'Your name',
  newPassword: 'New password',
  passwordHint: 'At least 10 characters. Three or four words are easy to remember.',
  becomeOwner: 'Become the owner',

  signInTitle: 'Sign in',
  signInWhy: 'For supervisors and owners. Operators choose their name where a run begins.',
  name: 'Name',
  password: 'Password',
  show: 'Show it',
  hide: 'Hide it',
  signIn: 'Sign in',
  haveCode: 'I have a code for my password',
  codeHow: 'From an owner, or from the server’s console if you are the owner and lost your password.',
  setPassword: 'Set the password',

  pairTitle: 'Pair this device',
  pairWhy:
    'This device is not paired: runs that are begun here stay here until it is. A supervisor gets a pairing code at another device, under “People and devices”.',
  pairingCode: 'Pairing code',
  deviceName: 'Name of this device',
  deviceNameHint: 'Such as: tablet at the freezer',
  pair: 'Pair',

  signedInAs: (name: string, role: Role) => `${name}, ${ROLE_WORDS[role].toLowerCase()}`,
  elevated: 'Your password was given within the last five minutes: you can sign, publish and change what is below.',
  elevateTitle: 'Give your password again',
  elevateWhy: 'To sign, to publish or to change anything here.',
  elevate: 'Go on',
  signOut: 'Sign out',
  signOutEverywhere: 'Sign out everywhere',
  changePassword: 'Change my password',
  oldPassword: 'Your password until now',

  whoTitle: 'Who is at the machine?',
  pinOf: (name: string) => `PIN of ${name}`,
  pinTyped: (digits: number) => `${digits} digits`,
  pinErase: 'Erase',
  pinCheck: 'Check',
  pinOpen: (hasPin: boolean): string =>
    hasPin
      ? 'Give your PIN, or go on without: the record says then that the name was not checked.'
      : 'The record says that the name was chosen, and not checked.',
  pinRight: 'The PIN is right. The record says so.',
  pinAway: 'The server cannot be asked now. Go on: the record says that the name was not checked.',

  people: 'People',
  add: 'Add a person',
  role: 'What the person may do',
  pin: 'PIN',
  pinHint: 'Four to eight digits, chosen by the operator. It can be left out.',
  addIt: 'Add',
  left: 'has left',
  noSecret: (role: Role): string => (role === 'operator' ? 'no PIN' : 'no password yet'),
  setPin: 'Set the PIN',
  passwordCode: 'Code for a new password',
  makeRole: (role: Role) => `Make ${ROLE_WORDS[role].toLowerCase()}`,
  leaves: 'Has left',
  back: 'Is back',
  rename: 'Change the name',
  change: 'Change',

  devices: 'Devices',
  thisDevice: 'this device',
  seen: (when: string) => `last seen ${when}`,
  pairedOn: (when: string) => `paired ${when}`,
  remove: 'Remove',
  newPairingCode: 'Pairing code for another device',
  noDevices: 'None is paired.',

  links: 'Links for reading',
  noLinks: 'There are none.',
  linkKinds: LINK_WORDS,
  linkKind: 'What it shows',
  linkFor: 'Whom it is for',
  linkMachine: 'Machine (empty: all of the shop)',
  linkDays: 'Days',
  makeLink: 'Make a link',
  endLink: 'End it',
  until: (when: string) => `until ${when}`,
  madeBy: (name: string) => `made by ${name}`,

  passwordCodeFor: (name: string) =>
    `For ${name}: with this code a password can be set. Tell it in person; it lives for three days.`,
  pairingCodeHow:
    'Type this code at the other device, under “People and devices”. It lives for ten minutes and works once.',
  linkHow: (days: number) =>
    `Give this address to nobody else. It is shown this once and works for ${days === 1 ? 'one day' : `${days} days`}.`,

  log: 'Who did what',
  showLog: 'Show it',
  more: 'Further back',
  deed: (what: string) => DEEDS[what] ?? what,
  atDevice: (device: string) => `at ${device}`,
  nobody: 'Somebody'
}

export type PeopleWords = typeof peopleWordsEn
