/** Values of a draft as its author wrote them, read without trust: a draft may be half written. */
import type { Edit, Path } from './edit.ts'

/** Undefined where there is nothing. */
export function valueAt(value: unknown, path: Path): unknown {
  let found = value
  for (const key of path) {
    if (found === null || typeof found !== 'object') return undefined
    found = Object.hasOwn(found, key) ? (found as Readonly<Record<string | number, unknown>>)[key] : undefined
  }
  return found
}

export function listAt(value: unknown, path: Path): readonly unknown[] {
  const found = valueAt(value, path)
  return Array.isArray(found) ? found : []
}

/** Figures and yes or no are shown as they would be written; empty where there are no words. */
export function wordsAt(value: unknown, path: Path): string {
  const found = valueAt(value, path)
  return typeof found === 'string' || typeof found === 'number' || typeof found === 'boolean' ? String(found) : ''
}

export function idsAt(value: unknown, path: Path): readonly string[] {
  return listAt(value, path).filter((id): id is string => typeof id === 'string')
}

export function languagesIn(value: unknown): readonly string[] {
  const found = idsAt(value, ['languages'])
  return found.length === 0 ? ['en'] : found
}

/** Of a text in one language; empty where it has none. Words without a language are in the first one. */
export function wordsIn(value: unknown, path: Path, language: string, first: string): string {
  const found = valueAt(value, path)
  if (found !== null && typeof found === 'object') return wordsAt(found, [language])
  return language === first ? wordsAt(value, path) : ''
}

/** For a list: in the language that is read, and in the first one while it has no words yet. */
export function shownWords(value: unknown, path: Path, reading: string, first: string): string {
  return wordsIn(value, path, reading, first) || wordsIn(value, path, first, first)
}

/** A text with other words in one language; undefined when no words are left. As short as it can be written. */
export function withWords(
  text: unknown,
  language: string,
  first: string,
  words: string
): string | Readonly<Record<string, string>> | undefined {
  const before =
    text !== null && typeof text === 'object'
      ? Object.entries(text).map(([tag, each]) => [tag, String(each)] as const)
      : [[first, wordsAt({ text }, ['text'])] as const]
  const after = new Map([...before.filter(([, each]) => each !== ''), [language, words] as const])
  if (words === '') after.delete(language)
  const [[only, its] = [first, ''], ...others] = [...after]
  if (after.size === 0) return undefined
  return others.length === 0 && only === first ? its : Object.fromEntries(after)
}

/** Writes a text in one language; null where nothing is to be done. */
export function wordsEdit(value: unknown, path: Path, language: string, first: string, words: string): Edit | null {
  const before = valueAt(value, path)
  const isBeside = before !== null && typeof before === 'object' && Object.keys(before).some((tag) => tag !== language)
  // The others may be on their way into the draft just now.
  if (isBeside && words !== '') return { kind: 'set', path: [...path, language], value: words }
  const changed = withWords(before, language, first, words)
  if (changed !== undefined) return { kind: 'set', path, value: changed }
  return before === undefined ? null : { kind: 'clear', path }
}
