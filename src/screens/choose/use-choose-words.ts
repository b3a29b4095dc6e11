import { useTexts } from '../texts.ts'
import { chooseWordsEn, type ChooseWords } from './words.en.ts'

/** The texts of the first screen, in the language of the page. */
export function useChooseWords(): ChooseWords {
  return useTexts('choose', chooseWordsEn)
}
