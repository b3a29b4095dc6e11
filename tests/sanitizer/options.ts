/** Options of a command, such as `--ppm 100`, each checked before anything is worked out with it. */
import { parseNumber } from '../../src/core/sanitizer/parse-number.ts'

/** Somebody typed something that cannot be worked with; the words are for them. */
export class BadInput extends Error {
  readonly option: string | null
  constructor(option: string | null, message: string) {
    super(message)
    this.option = option
  }
}

export interface Options {
  readonly has: (name: string) => boolean
  readonly text: (name: string) => string | undefined
  readonly oneOf: <T extends string>(name: string, choices: readonly T[]) => T | undefined
  readonly number: (name: string, range?: { readonly above?: number; readonly most?: number }) => number | undefined
}

/** @throws BadInput when an option is unknown, given twice or lacks its value. `flags` have no value. */
export function readOptions(args: readonly string[], names: readonly string[], flags: readonly string[]): Options {
  const given = new Map<string, string>()
  for (let index = 0; index < args.length; index++) {
    const [name = '', ...rest] = (args[index] ?? '').split('=')
    const option = name.replace(/^--/, '')
    if (!name.startsWith('--')) throw new BadInput(null, `"${args[index]}" belongs to no option.`)
    if (!names.includes(option) && !flags.includes(option)) {
      const known = [...names, ...flags].map((one) => `--${one}`).join(' ')
      throw new BadInput(option, `There is no option --${option}. There are: ${known}`)
    }
    if (given.has(option)) throw new BadInput(option, `--${option} is given twice.`)
    if (flags.includes(option)) {
      if (rest.length > 0) throw new BadInput(option, `--${option} takes no value.`)
      given.set(option, '')
      continue
    }
    const value = rest.length > 0 ? rest.join('=') : args[++index]
    if (value === undefined || value.trim() === '' || value.startsWith('--'))
      throw new BadInput(option, `--${option} needs a value.`)
    given.set(option, value)
  }
  const text = (name: string) => given.get(name)
  return {
    has: (name) => given.has(name),
    text,
    oneOf: (name, choices) => {
      const value = text(name)
      if (value === undefined) return undefined
      const chosen = choices.find((choice) => choice === value)
      if (chosen === undefined) throw new BadInput(name, `--${name} is "${value}". It can be: ${choices.join(', ')}`)
      return chosen
    },
    number: (name, range) => {
      const value = text(name)
      return value === undefined ? undefined : numberIn(name, value, range ?? {})
    }
  }
}

function numberIn(name: string, typed: string, { above, most }: { above?: number; most?: number }): number {
  const parsed = parseNumber(typed)
  if (parsed.kind === 'comma') {
    const meant = [parsed.decimal, parsed.thousands].filter((value) => value !== null).join(' or ')
    throw new BadInput(name, `--${name} is "${typed}". Do you mean ${meant}? Write a point for decimals, and no comma.`)
  }
  if (parsed.kind === 'no-number') throw new BadInput(name, `--${name} is "${typed}", which is no number.`)
  if (above !== undefined && parsed.value <= above)
    throw new BadInput(name, `--${name} is ${parsed.value}. It must be more than ${above}.`)
  if (most !== undefined && parsed.value > most)
    throw new BadInput(name, `--${name} is ${parsed.value}. More than ${most} cannot be.`)
  return parsed.value
}
