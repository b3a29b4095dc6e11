import { useTexts } from '../texts.ts'
import { recordsScreenWordsEn, type RecordsScreenWords } from './words.en.ts'

/** The texts of the screens for records, in the language of the page. */
export function useRecordsWords(): RecordsScreenWords {
  return useTexts('records', recordsScreenWordsEn)
}
