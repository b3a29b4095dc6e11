/** Spanish texts of the screen for people, devices and links. */
import type { LinkKind, Role } from '../../core/record/account-kinds.ts'
import type { PeopleWords } from './words.en.ts'

const DEEDS: Readonly<Record<string, string>> = {
  'owner-made': 'es el primer dueño',
  'owner-code-used': 'usó un código de la consola del servidor',
  'signed-in': 'inició sesión',
  'sign-in-refused': 'contraseña equivocada',
  'signed-out': 'cerró sesión',
  'signed-out-everywhere': 'cerró sesión en todas partes',
  'password-given-again': 'dio otra vez la contraseña',
  'password-set': 'puso una contraseña',
  'pin-set': 'puso un PIN',
  'pin-refused': 'PIN equivocado',
  'person-added': 'agregó a una persona',
  'person-changed': 'cambió a una persona',
  'person-left': 'anotó que alguien se fue',
  'person-back': 'anotó que alguien volvió',
  'password-code-made': 'hizo un código para una contraseña',
  'pairing-code-made': 'hizo un código para enlazar',
  'device-paired': 'enlazó un aparato',
  'device-removed': 'quitó un aparato',
  'link-made': 'hizo un enlace',
  'link-ended': 'terminó un enlace',
  'link-opened': 'se abrió un enlace',
  'record-signed': 'firmó un registro',
  'procedure-published': 'publicó un procedimiento',
  'procedure-put-away': 'quitó un procedimiento de la lista'
}

const ROLE_WORDS: Readonly<Record<Role, string>> = { operator: 'Operador', supervisor: 'Supervisor', owner: 'Dueño' }
const LINK_WORDS: Readonly<Record<LinkKind, string>> = {
  inspector: 'Leer registros, para un inspector',
  calendar: 'Lo que toca hacer, para un calendario'
}

export const peopleWordsEs: PeopleWords = {
  title: 'Personas y aparatos',
  away: 'El servidor no contesta. Ahí se guardan personas, aparatos y enlaces.',
  again: 'Preguntar otra vez',
  done: 'Hecho.',
  roles: ROLE_WORDS,
  roleHints: {
    operator: 'limpia; dice quién es con un PIN',
    supervisor: 'además firma, publica y enlaza; inicia sesión con contraseña',
    owner: 'además cuida de los supervisores y ve quién hizo qué'
  },

  firstTitle: 'Este local todavía no tiene dueño',
  firstWhy:
    'Mientras no lo tenga, quien llegue a esta página puede limpiar, y nadie puede firmar un registro, publicar un procedimiento ni dejar entrar a otros.',
  firstHow:
    'El programa del servidor muestra en su consola un código de un solo uso. Quien lo tiene queda aquí como dueño, y este aparato queda enlazado.',
  code: 'Código de un solo uso',
  yourName: 'Su nombre',
  newPassword: 'Contraseña nueva',
  passwordHint: 'Al menos 10 caracteres. Tres o cuatro palabras son fáciles de recordar.',
  becomeOwner: 'Quedar como dueño',

  signInTitle: 'Iniciar sesión',
  signInWhy: 'Para supervisores y dueños. Los operadores eligen su nombre donde empieza un trabajo.',
  name: 'Nombre',
  password: 'Contraseña',
  show: 'Mostrarla',
  hide: 'Ocultarla',
  signIn: 'Iniciar sesión',
  haveCode: 'Tengo un código para mi contraseña',
  codeHow: 'De un dueño, o de la consola del servidor si usted es dueño y perdió su contraseña.',
  setPassword: 'Poner la contraseña',

  pairTitle: 'Enlazar este aparato',
  pairWhy:
    'Este aparato no está enlazado: los trabajos que empiezan aquí se quedan aquí hasta que lo esté. Un supervisor obtiene un código en otro aparato, en “Personas y aparatos”.',
  pairingCode: 'Código para enlazar',
  deviceName: 'Nombre de este aparato',
  deviceNameHint: 'Como: tableta junto a la máquina de helado',
  pair: 'Enlazar',

  signedInAs: (name, role) => `${name}, ${ROLE_WORDS[role].toLowerCase()}`,
  elevated: 'Su contraseña se dio en los últimos cinco minutos: puede firmar, publicar y cambiar lo de abajo.',
  elevateTitle: 'Dé otra vez su contraseña',
  elevateWhy: 'Para firmar, publicar o cambiar algo aquí.',
  elevate: 'Seguir',
  signOut: 'Cerrar sesión',
  signOutEverywhere: 'Cerrar sesión en todas partes',
  changePassword: 'Cambiar mi contraseña',
  oldPassword: 'Su contraseña hasta ahora',

  whoTitle: '¿Quién está en la máquina?',
  pinOf: (name) => `PIN de ${name}`,
  pinTyped: (digits) => (digits === 1 ? '1 cifra' : `${digits} cifras`),
  pinErase: 'Borrar',
  pinCheck: 'Comprobar',
  pinOpen: (hasPin) =>
    hasPin
      ? 'Dé su PIN o siga sin él: entonces el registro dice que el nombre no se comprobó.'
      : 'El registro dice que el nombre se eligió y no se comprobó.',
  pinRight: 'El PIN coincide. El registro lo dice.',
  pinAway: 'Ahora no se puede preguntar al servidor. Siga: el registro dice que el nombre no se comprobó.',

  people: 'Personas',
  add: 'Agregar a una persona',
  role: 'Qué puede hacer la persona',
  pin: 'PIN',
  pinHint: 'De cuatro a ocho cifras, elegidas por el operador. Se puede omitir.',
  addIt: 'Agregar',
  left: 'se fue',
  noSecret: (role) => (role === 'operator' ? 'sin PIN' : 'todavía sin contraseña'),
  setPin: 'Poner el PIN',
  passwordCode: 'Código para otra contraseña',
  makeRole: (role) => `Hacer ${ROLE_WORDS[role].toLowerCase()}`,
  leaves: 'Se fue',
  back: 'Volvió',
  rename: 'Cambiar el nombre',
  change: 'Cambiar',

  devices: 'Aparatos',
  thisDevice: 'este aparato',
  seen: (when) => `visto por última vez ${when}`,
  pairedOn: (when) => `enlazado ${when}`,
  remove: 'Quitar',
  newPairingCode: 'Código para enlazar otro aparato',
  noDevices: 'Ninguno está enlazado.',

  links: 'Enlaces para leer',
  noLinks: 'No hay ninguno.',
  linkKinds: LINK_WORDS,
  linkKind: 'Qué muestra',
  linkFor: 'Para quién es',
  linkMachine: 'Máquina (vacío: todo el local)',
  linkDays: 'Días',
  makeLink: 'Hacer un enlace',
  endLink: 'Terminarlo',
  until: (when) => `hasta ${when}`,
  madeBy: (name) => `hecho por ${name}`,

  passwordCodeFor: (name) =>
    `Para ${name}: con este código se puede poner una contraseña. Dígalo en persona; vale tres días.`,
  pairingCodeHow: 'Escriba este código en el otro aparato, en “Personas y aparatos”. Vale diez minutos y una sola vez.',
  linkHow: (days) =>
    `No dé esta dirección a nadie más. Se muestra solo esta vez y vale ${days === 1 ? 'un día' : `${days} días`}.`,

  log: 'Quién hizo qué',
  showLog: 'Mostrarlo',
  more: 'Más atrás',
  deed: (what) => DEEDS[what] ?? what,
  atDevice: (device) => `en ${device}`,
  nobody: 'Alguien'
}
