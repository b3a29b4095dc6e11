import type { Language } from './languages.ts'

const LOCALES: Readonly<Record<Language, string>> = { en: 'en-US', es: 'es-US' }

/** How a language (BCP 47) writes days and times: as in the United States, whose units are offered too; other tags as they are. */
export function localeOf(language: string): string {
  return Object.hasOwn(LOCALES, language) ? LOCALES[language as Language] : language
}
