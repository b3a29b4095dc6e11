import { useTexts } from '../texts.ts'
import { peopleWordsEn, type PeopleWords } from './words.en.ts'

/** The texts for people, devices and links, in the language of the page. */
export function usePeopleWords(): PeopleWords {
  return useTexts('people', peopleWordsEn)
}
