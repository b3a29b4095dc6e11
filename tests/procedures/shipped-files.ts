/** The procedures that come with the program, as files and as the program reads them. */
import { readdirSync, readFileSync } from 'node:fs'
import type { Procedure, Step } from '../../src/core/procedure/procedure.ts'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'

const folder = new URL('../../procedures/', import.meta.url)

export const SHIPPED_FILES: readonly { readonly name: string; readonly text: string }[] = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => ({ name, text: readFileSync(new URL(name, folder), 'utf8') }))

export const SHIPPED: readonly { readonly name: string; readonly procedure: Procedure }[] = SHIPPED_FILES.map(
  ({ name, text }) => ({
    name,
    procedure: mustRead(name, text)
  })
)

/** The closing and the opening of the invented twin freezer: the two that strip it and build it up. */
export const FREEZER = SHIPPED.filter(({ procedure }) => /^twin-freezer-(closing|opening)$/.test(procedure.id))

/** @throws when the file has problems, with all of them in the message. */
export function mustRead(name: string, text: string): Procedure {
  const read = readProcedure(text)
  if (read.kind === 'read') return read.procedure
  throw new Error(read.problems.map((problem) => `${name}:${problem.line}: ${problem.what} ${problem.mend}`).join('\n'))
}

export function shipped(id: string): Procedure {
  const found = SHIPPED.find(({ procedure }) => procedure.id === id)
  if (!found) throw new Error(`no shipped procedure has the id ${id}`)
  return found.procedure
}

export function stepsOf(procedure: Procedure): readonly Step[] {
  return procedure.stages.flatMap((stage) => stage.steps)
}
