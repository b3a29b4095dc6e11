import { gatherWordsEn } from './words.en.ts'

/** The texts of the screen that gathers, in the language of the page. */
export function useGatherWords(): typeof gatherWordsEn {
  return gatherWordsEn
}
