import { dueWordsEn, type DueWords } from '../../core/due/words.en.ts'
import type { Reader } from '../../core/record/record-lines.ts'
import { recordWordsEn } from '../../core/record/words.en.ts'
import { useLanguage, useTexts } from '../texts.ts'

/** How records are read on this page. */
export function useReader(): Reader {
  return { words: useTexts('record', recordWordsEn), language: useLanguage() }
}

export function useDueWords(): DueWords {
  return useTexts('due', dueWordsEn)
}
