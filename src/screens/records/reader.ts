/** How records are read on this page. */
import type { Reader } from '../../core/record/record-lines.ts'
import { recordWordsEn } from '../../core/record/words.en.ts'

export const READER: Reader = { words: recordWordsEn, language: 'en' }
