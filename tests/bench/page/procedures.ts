/** Procedures of the bench: made for timing, not for cleaning. */
import { readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { parse, stringify } from 'yaml'
import { withHead } from '../../helpers/a-procedure.ts'

const SHIPPED = join(resolve(import.meta.dirname, '../../..'), 'procedures', 'twin-freezer-closing.yaml')

interface Authored {
  readonly title: { readonly en: string }
  readonly stages: readonly { readonly steps: Record<string, unknown>[] }[]
}

export const SHIPPED_TITLE = (parse(readFileSync(SHIPPED, 'utf8')) as Authored).title.en
export const ONE_KEY_TITLE = 'Bench: one key'

/** The shipped closing with all its texts, sides and tools, but everything in it is answered by the main key at once. */
export function oneKeyProcedure(): string {
  const authored = parse(readFileSync(SHIPPED, 'utf8')) as Authored
  for (const step of authored.stages.flatMap(({ steps }) => steps))
    for (const asking of ['wait', 'ask', 'read', 'count', 'again', 'confirm']) delete step[asking]
  return stringify({ ...authored, procedure: 'bench-one-key', title: { en: ONE_KEY_TITLE, es: ONE_KEY_TITLE } })
}

/** Nothing but waits of the given length, one after the other on one side. */
export function waitsProcedure(title: string, id: string, waitSeconds: number, waits: number): string {
  const steps = Array.from(
    { length: waits },
    (_, index) =>
      `      - {step: soak-${index + 1}, on: [left], say: Fill the tray., hands: 5 s, wait: {for: soak, at least: ${waitSeconds} s, source: Common practice}}`
  )
  return withHead(`  - stage: Soak\n    steps:\n${steps.join('\n')}`)
    .replace('procedure: test-machine', `procedure: ${id}`)
    .replace('title: Test\n', `title: '${title}'\n`)
}
