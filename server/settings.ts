/** What the environment asks of the server, or what is wrong with it. */
import { resolve } from 'node:path'

export interface Settings {
  /** 0 takes any free port. */
  readonly port: number
  readonly hostname: string
  readonly dataFolder: string
  /** Whether clips of what the procedures can say are rendered here. */
  readonly speech: 'rendered' | 'off'
  /** Path of a program that speaks Spanish; null where there is none. */
  readonly spanishVoice: string | null
}

export type ReadSettings =
  | { readonly kind: 'read'; readonly settings: Settings }
  | { readonly kind: 'faulty'; readonly what: string; readonly mend: string }

/** An empty value counts as none. */
export function readSettings(environment: Readonly<Record<string, string | undefined>>): ReadSettings {
  const asked = environment['PORT'] || '4180'
  const port = /^\d{1,5}$/.test(asked) ? Number(asked) : Infinity
  if (port > 65_535) {
    return {
      kind: 'faulty',
      what: `PORT is "${asked}", which is no port number.`,
      mend: 'Set it to a number from 1 to 65535.'
    }
  }
  const speech = environment['SIDECALL_SPEECH'] || 'rendered'
  if (speech !== 'rendered' && speech !== 'off') {
    return { kind: 'faulty', what: `SIDECALL_SPEECH is "${speech}".`, mend: 'Set it to rendered or off.' }
  }
  return {
    kind: 'read',
    settings: {
      speech,
      spanishVoice: environment['SIDECALL_SPANISH_VOICE'] || null,
      port,
      hostname: environment['HOST'] || '127.0.0.1',
      dataFolder: resolve(environment['SIDECALL_DATA'] || 'data')
    }
  }
}

/** Where a browser on this machine finds the page. */
export function pageAddress(hostname: string, port: number): string {
  const local = ['127.0.0.1', '0.0.0.0', '::', '::1'].includes(hostname)
  return `http://${local ? 'localhost' : hostname.includes(':') ? `[${hostname}]` : hostname}:${port}`
}
