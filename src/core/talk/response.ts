/** What comes of the operator's words. */
import type { Command } from '../run/command.ts'
import type { Asking } from './asking.ts'
import type { Line } from './line.ts'

export interface Response {
  readonly asking: Asking | null
  readonly commands: readonly Command[]
  readonly lines: readonly Line[]
  /** Stop speaking now, before any of `lines`. */
  readonly hush: boolean
}

export function command(given: Command, hush = false): Response {
  return { asking: null, commands: [given], lines: [], hush }
}

export function reply(lines: readonly Line[]): Response {
  return { asking: null, commands: [], lines, hush: false }
}

export function tell(text: string): Response {
  return reply([answer(text)])
}

export function ask(asking: Asking, text: string): Response {
  return { ...tell(text), asking }
}

export function answer(text: string): Line {
  return { priority: 'answer', text, lane: null }
}
