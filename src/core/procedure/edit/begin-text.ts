import { isLanguage, type Language } from '../../talk/languages.ts'
import { beginWordsEn, type BeginWords } from './words.en.ts'
import { beginWordsEs } from './words.es.ts'

const WORDS: Readonly<Record<Language, BeginWords>> = { en: beginWordsEn, es: beginWordsEs }

/**
 * Words to begin with, in each language of a procedure that there are any for, as its author would write them: plain
 * where there is one language. The first one gets English where there are none.
 */
export function beginText(
  key: keyof BeginWords,
  languages: readonly string[]
): string | Readonly<Record<string, string>> {
  const [first = 'en', ...others] = languages
  const known = others.filter(isLanguage)
  const begun = (isLanguage(first) ? WORDS[first] : WORDS.en)[key]
  if (known.length === 0) return begun
  return { [first]: begun, ...Object.fromEntries(known.map((language) => [language, WORDS[language][key]])) }
}
