/** How people read what the server writes: in the language they ask for (`?language=es`), or in English. */
import type { CalendarReader } from '../src/core/due/due-calendar.ts'
import { dueWordsEn, type DueWords } from '../src/core/due/words.en.ts'
import { dueWordsEs } from '../src/core/due/words.es.ts'
import type { Reader } from '../src/core/record/record-lines.ts'
import { recordWordsEn, type RecordWords } from '../src/core/record/words.en.ts'
import { recordWordsEs } from '../src/core/record/words.es.ts'
import { likelyLanguage, type Language } from '../src/core/talk/languages.ts'

const RECORD_WORDS: Readonly<Record<Language, RecordWords>> = { en: recordWordsEn, es: recordWordsEs }
const DUE_WORDS: Readonly<Record<Language, DueWords>> = { en: dueWordsEn, es: dueWordsEs }

export function recordReader(asked: string | undefined): Reader {
  const language = likelyLanguage([asked ?? ''])
  return { words: RECORD_WORDS[language], language }
}

export function dueReader(asked: string | undefined): CalendarReader {
  const language = likelyLanguage([asked ?? ''])
  return { words: DUE_WORDS[language], language }
}
