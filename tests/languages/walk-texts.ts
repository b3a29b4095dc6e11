/** Two trees of texts side by side: every text of both, with functions called alike. */

export interface TextPair {
  readonly name: string
  readonly english: string
  readonly other: string
  /** What was put into both. */
  readonly gaps: readonly string[]
}

/** What to call the functions with whose arguments are not words or counts, by name; a list of calls each. */
export type Calls = Readonly<Record<string, readonly (readonly unknown[])[]>>

const GAPS = ['Xax', 'Xux', 'Xex', 'Xox', 'Xyx']

export function pairsIn(english: unknown, other: unknown, calls: Calls, name = ''): readonly TextPair[] {
  if (typeof english === 'string') return [{ name, english, other: String(other), gaps: [] }]
  if (typeof english === 'function') {
    const say = english as (...args: readonly unknown[]) => unknown
    return (calls[name] ?? [GAPS]).flatMap((args) => {
      const saidIn = (one: unknown) => JSON.stringify((one as typeof say)(...args)) ?? 'undefined'
      return [
        { name, english: saidIn(say), other: saidIn(other), gaps: GAPS.filter((gap) => saidIn(say).includes(gap)) }
      ]
    })
  }
  if (typeof english !== 'object' || english === null) return []
  const [mine, theirs] = [english as Record<string, unknown>, other as Record<string, unknown>]
  return Object.keys(mine).flatMap((key) =>
    pairsIn(mine[key], theirs?.[key], calls, name === '' ? key : `${name}.${key}`)
  )
}

export function keysIn(texts: unknown, name = ''): readonly string[] {
  if (typeof texts !== 'object' || texts === null) return [name]
  return Object.entries(texts).flatMap(([key, text]) => keysIn(text, name === '' ? key : `${name}.${key}`))
}
