/** What only ears that know few words need: loaded with them. */
import type { Check } from '../procedure/procedure.ts'
import type { Call } from '../run/call.ts'
import type { Run } from '../run/run.ts'
import type { Told } from './call-words.ts'
import type { Asking } from './asking.ts'
import type { Conversation } from './conversation.ts'
import { firstStep, type SteppedAnswer } from './first-step.ts'
import type { Expecting } from './hear.ts'
import type { Intent, NumberStep } from './intent.ts'
import type { Response } from './response.ts'
import { phrasesNow } from './spoken-phrases.ts'
import { steppedBy } from './stepping.ts'
import { respondToUnsure } from './unsure-words.ts'
import type { Vocabulary } from './vocabulary.en.ts'

export interface FewWords {
  /** Where a number begins that is told in steps; null where none is asked for. */
  firstStep(check: Check | null, run: Run): SteppedAnswer | null
  /** Null where no number is asked for. */
  steppedBy(asking: Asking | null, step: NumberStep, call: Call, told: Told): Response | null
  /** The phrases that mean something at this call. */
  phrasesNow(call: Call, expecting: Pick<Expecting, 'yesNo' | 'phrase'>, vocabulary: Vocabulary): readonly string[]
  /** To words that were heard too badly to act on. */
  respondToUnsure(conversation: Conversation, intent: Intent, told: Told): Response
}

export const fewWords: FewWords = { firstStep, steppedBy, phrasesNow, respondToUnsure }
