/** The few phrases that ears with a small memory listen for: of each command the one that is heard best. */
import type { Call } from '../run/call.ts'
import type { Expecting } from './hear.ts'
import { helpfulNow } from './helpful-now.ts'
import type { PlainIntent } from './intent.ts'
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
export function spokenPhrases({ phrases }: Vocabulary): readonly string[] {
  return PRACTISED.flatMap((intent) => phrases[intent].slice(0, ALSO_SHORT.includes(intent) ? 2 : 1))
}

/** Those that mean something at this call. A yes or no counts where one is asked for. */
export function phrasesNow(
  call: Call,
  { yesNo }: Pick<Expecting, 'yesNo'>,
  { phrases }: Vocabulary
): readonly string[] {
  const intents = new Set<PlainIntent>([
    ...(yesNo ? (['yes', 'no'] as const) : []),
    ...helpfulNow(call),
    ...(call.kind === 'alarm' ? (['done', 'yes'] as const) : []),
    'help'
  ])
  return [...intents].flatMap((intent) => phrases[intent].slice(0, ALSO_SHORT.includes(intent) ? 2 : 1))
}
