import { useTexts } from '../texts.ts'
import { gatherWordsEn, type GatherWords } from './words.en.ts'

/** The texts of the screen that gathers, in the language of the page. */
export function useGatherWords(): GatherWords {
  return useTexts('gather', gatherWordsEn)
}
