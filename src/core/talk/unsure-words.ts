/** Words that were heard too badly to act on. */
import { callAt } from '../run/call.ts'
import { laneName, type Told } from './call-words.ts'
import { NEW_CONVERSATION, respond, respondToUnknown, type Conversation } from './conversation.ts'
import { PLAIN_INTENTS, type Intent, type PlainIntent } from './intent.ts'
import { openQuestion } from './asking.ts'
import { ask, type Response } from './response.ts'

/**
 * One short question; the same words again answer it, for whoever is asked "Did you say that?" says it once more. Where
 * another question is open, or the answer itself was heard badly, asking what was asked would only confuse: the words
 * count as not understood.
 */
export function respondToUnsure(conversation: Conversation, intent: Intent, told: Told): Response {
  const { course, run, at, device, manner } = told
  const call = callAt(course, run, at, device)
  const asking = openQuestion(conversation.asking, call)
  if (asking?.kind === 'did-you-say' && isSame(asking.intent, intent)) return respond(NEW_CONVERSATION, intent, told)
  const named =
    intent.type === 'lane'
      ? manner.words.goTo(laneName(course, intent.lane, manner))
      : isPlain(intent)
        ? manner.words.phrase(intent.type)
        : null
  const answers = intent.type === 'yes' || intent.type === 'no'
  const isBusy = asking !== null || call.kind === 'alarm'
  if (named === null || answers || isBusy) return respondToUnknown(conversation, told)
  return ask({ kind: 'did-you-say', intent }, manner.words.didYouSay(named))
}

function isPlain(intent: Intent): intent is Extract<Intent, { type: PlainIntent }> {
  return (PLAIN_INTENTS as readonly string[]).includes(intent.type)
}

function isSame(asked: Intent, heard: Intent): boolean {
  return asked.type === 'lane' ? heard.type === 'lane' && heard.lane === asked.lane : heard.type === asked.type
}
