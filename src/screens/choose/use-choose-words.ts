import { chooseWordsEn } from './words.en.ts'

/** The texts of the first screen, in the language of the page. */
export function useChooseWords(): typeof chooseWordsEn {
  return chooseWordsEn
}
