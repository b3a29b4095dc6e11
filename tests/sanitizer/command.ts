/** What both command line tools do alike: print words or JSON, and end with 2 when the input was bad. */
import { BadInput } from './options.ts'

export interface Outcome {
  readonly json: Readonly<Record<string, unknown>>
  readonly lines: readonly string[]
}

export interface Printed {
  readonly code: 0 | 2
  readonly out: string
  readonly err: string
}

export function printed(args: readonly string[], help: string, work: (args: readonly string[]) => Outcome): Printed {
  if (args.includes('--help')) return { code: 0, out: help, err: '' }
  const isJson = args.includes('--json')
  try {
    const { json, lines } = work(args)
    return { code: 0, out: isJson ? JSON.stringify(json, null, 2) : lines.join('\n'), err: '' }
  } catch (error) {
    if (!(error instanceof BadInput)) throw error
    const { option, message } = error
    return isJson
      ? { code: 2, out: JSON.stringify({ error: { option, message } }, null, 2), err: '' }
      : { code: 2, out: '', err: `${message}\n\n${help}` }
  }
}

export function runCommand(print: (args: readonly string[]) => Printed): void {
  const { code, out, err } = print(process.argv.slice(2))
  if (out !== '') console.log(out)
  if (err !== '') console.error(err)
  process.exitCode = code
}
