/** The few phrases that ears with a small memory listen for: of each command the one that is heard best. */
import type { Call } from '../run/call.ts'
import type { Expecting } from './hear.ts'
import { helpfulNow } from './helpful-now.ts'
import { stepsAt } from './stepping.ts'
import { NUMBER_STEPS, type NumberStep, type PlainIntent } from './intent.ts'
import type { Vocabulary } from './vocabulary.en.ts'

/** Worth practising, the most used first. */
const PRACTISED: readonly PlainIntent[] = [
  'done',
  'repeat',
  'yes',
  'no',
  'next',
  'take-back',
  'pause',
  'resume',
  'how-long',
  'why',
  'more',
  'what-now',
  'help',
  'problem',
  'corrected'
]
/** These are also said as one word. */
const ALSO_SHORT: readonly PlainIntent[] = ['done', 'next', 'repeat']

/** Every phrase that can be practised. The vocabulary lists the phrase that is heard best first, the short one second. */
export function spokenPhrases(vocabulary: Vocabulary): readonly string[] {
  const { phrases } = vocabulary
  const plain = PRACTISED.flatMap((intent) => phrases[intent].slice(0, ALSO_SHORT.includes(intent) ? 2 : 1))
  return [...plain, ...ofSteps(NUMBER_STEPS, vocabulary), ...vocabulary.attention.slice(0, 1)]
}

function ofSteps(wanted: readonly NumberStep[], { steps }: Vocabulary): readonly string[] {
  return wanted.flatMap((step) => steps[step].slice(0, 1))
}

/** Those that mean something at this call. A yes or no counts where one is asked for. */
export function phrasesNow(
  call: Call,
  { yesNo, phrase }: Pick<Expecting, 'yesNo' | 'phrase'>,
  vocabulary: Vocabulary
): readonly string[] {
  const { phrases } = vocabulary
  const intents = new Set<PlainIntent>([
    ...(yesNo ? (['yes', 'no'] as const) : []),
    ...helpfulNow(call),
    ...(call.kind === 'alarm' ? (['done', 'yes'] as const) : []),
    'help'
  ])
  const plain = [...intents].flatMap((intent) => phrases[intent].slice(0, ALSO_SHORT.includes(intent) ? 2 : 1))
  // As it was practised: whole, in small letters.
  const confirming = phrase === null ? [] : [phrase.toLowerCase()]
  return [...plain, ...confirming, ...ofSteps(stepsAt(call), vocabulary)]
}
