/** Whether a confirming phrase is one that operators also say at other steps. */
import { cores, tokens } from './tokens.ts'
import type { Vocabulary } from './vocabulary.en.ts'

/** A single word counts as one: it is misheard too easily to guard moving parts. */
export function isEveryday(phrase: string, { phrases, ambiguous, filler }: Vocabulary): boolean {
  const known = [...Object.values(phrases).flat(), ...Object.keys(ambiguous)].map((one) => tokens(one).join(' '))
  return cores(tokens(phrase), filler).some((words) => words.length < 2 || known.includes(words.join(' ')))
}
