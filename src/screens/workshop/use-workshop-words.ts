import { workshopWordsEn } from './words.en.ts'

/** The texts of the workshop, in the language of the page. */
export function useWorkshopWords(): typeof workshopWordsEn {
  return workshopWordsEn
}
