import { useTexts } from '../texts.ts'
import { workshopWordsEn, type WorkshopWords } from './words.en.ts'

/** The texts of the workshop, in the language of the page. */
export function useWorkshopWords(): WorkshopWords {
  return useTexts('workshop', workshopWordsEn)
}
