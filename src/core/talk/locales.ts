import type { Language } from './languages.ts'

/** Where it is to be decided how a language writes days, times and numbers: as in the United States, whose units are offered too. */
export const LOCALES = { en: 'en-US', es: 'es-US' } as const satisfies Readonly<Record<Language, string>>
