/** English texts for a run with damaged entries; a part of screens/words.en.ts. */
import { count } from '../count.ts'

export const damagedWordsEn = {
  title: 'Part of this run is damaged',
  lost: (value: number) =>
    `${count(value, 'entry', 'entries')} of this run cannot be read any more on this device. What stood there is not known.`,
  asked: 'The server does not have what is missing either.',
  away: 'The server may still have what is missing, but cannot be reached. Bring it back and look again first, if there is time.',
  whatThen: 'Going on without it keeps every wait, and takes longer:',
  consequences: [
    'Every lane stops until somebody has looked at it and put down what they found.',
    'Every lane that has had to wait waits once more, as long as its longest wait so far.',
    'A longest time that may have passed counts as missed.',
    'The record says that entries were lost. What is damaged is kept.'
  ],
  hold: 'Hold down: go on without it',
  again: 'Look again',
  leave: 'Back to the list'
}

export type DamagedWords = typeof damagedWordsEn
