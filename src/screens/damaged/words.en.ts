/** English texts for a run with damaged entries; a part of screens/words.en.ts. */
import { count } from '../count.en.ts'

export const damagedWordsEn = {
  title: 'Part of this run is damaged',
  lost: (value: number) =>
    `${count(value, 'entry of it', 'entries of it')} on this device cannot be read any more, and what ${value === 1 ? 'it says' : 'they say'} is not known.`,
  asked: 'The server does not have them either.',
  away: 'The server may still have them, but cannot be reached. Bring it back and look again first, if there is time.',
  whatThen: 'To go on without them is safe, and takes longer:',
  consequences: [
    'Every lane stops until somebody has looked at it and put down what they found.',
    'Every lane that had to wait waits once more, as long as its longest wait so far.',
    'A longest time that may have passed counts as missed.',
    'The record says that entries were lost. What is damaged is kept.'
  ],
  hold: 'Hold down: go on without them',
  again: 'Look again',
  leave: 'Back to the list'
}
