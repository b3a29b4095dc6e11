/** What to do about an operator's intent: a command for the run, words for the operator, or a question first. */
import type { LaneId } from '../procedure/procedure.ts'
import { wearPlaces } from '../procedure/wear-places.ts'
import { callAt, namesLaneInHand, type Call } from '../run/call.ts'
import { handsOf } from '../run/run.ts'
import { callKey } from './announce.ts'
import { openQuestion, type Asking } from './asking.ts'
import { callWords, correctionsFor, laneName, partOptions, progressNamed, textIn, type Told } from './call-words.ts'
import { helpfulNow, moreOf, timesLeft, whereWords } from './helpful-now.ts'
import type { Intent, PlainIntent } from './intent.ts'
import type { Line } from './line.ts'
import { readyWords, whyHereWords } from './plan-words.ts'
import { askAgain, implausible, numberTold } from './read-back.ts'
import { answer, ask, command, reply, tell, type Response } from './response.ts'

export interface Conversation {
  readonly asking: Asking | null
  /** What was said last, for saying it again. */
  readonly said: readonly Line[]
  /** Words not understood in a row. */
  readonly misses: number
}

export const NEW_CONVERSATION: Conversation = { asking: null, said: [], misses: 0 }

export function respond(conversation: Conversation, intent: Intent, told: Told): Response {
  const call = callNow(told)
  if (call.kind === 'alarm') return command({ type: 'acknowledge-wait', lane: call.lane }, true)
  const asking = openQuestion(conversation.asking, call)
  const answered =
    intent.type === 'number-step'
      ? told.manner.fewWords?.steppedBy(asking, intent.step, call, told)
      : asking && answerQuestion(asking, intent, told)
  if (answered) return answered
  const response = otherwise({ ...conversation, asking }, intent, call, told)
  // A question in between, such as why, does not lose the number that is being told.
  const goesOn = asking?.kind === 'stepping' && response.asking === null && response.commands.length === 0
  return goesOn ? { ...response, asking } : response
}

function otherwise(conversation: Conversation, intent: Intent, call: Call, told: Told): Response {
  switch (intent.type) {
    case 'repeat':
      return sayAgain(conversation, call, told)
    case 'slower': {
      const again = sayAgain(conversation, call, told)
      return { ...again, lines: again.lines.map((line): Line => ({ ...line, pace: 'slow' })) }
    }
    case 'more':
      return tell(moreOf(conversation.said, call, told))
    default:
      return plainly(intent, call, told)
  }
}

/** A question that is said again is still open. */
function sayAgain({ asking, said }: Conversation, call: Call, told: Told): Response {
  const { unknown, askNumberAgain, offerHelp } = told.manner.words
  const worthwhile = said.filter(({ text }) => ![unknown, askNumberAgain].includes(text))
  // Where other ways were offered, what is wanted again is what came before. How long everybody still waits was true
  // only when it was said.
  const isStale =
    worthwhile.length === 0 ||
    said.some(({ text }) => text === offerHelp) ||
    (call.kind === 'all-waiting' && asking === null)
  return { ...reply(isStale ? callWords(told, call, true).lines : worthwhile), asking }
}

/** Words that meant nothing certain: after two in a row, other ways are offered. */
export function respondToUnknown(conversation: Conversation, told: Told): Response {
  const { words } = told.manner
  const call = callNow(told)
  const wantsNumber = call.kind === 'step' && ['reading', 'count'].includes(call.place.step.check?.kind ?? '')
  const lines =
    call.kind === 'alarm'
      ? [answer(words.alarmHint)]
      : [
          answer(words.unknown),
          ...(wantsNumber ? [answer(words.askNumberAgain)] : []),
          ...(conversation.misses >= 1 ? otherWays(whatToSay(call, told), told) : [])
        ]
  return { ...reply(lines), asking: conversation.asking }
}

/** Something that was almost a command, for the second time in a row: `closest` are the phrases it may have been. */
export function respondToMisses(conversation: Conversation, closest: readonly string[], told: Told): Response {
  return { ...reply(otherWays(told.manner.words.help(closest), told)), asking: conversation.asking }
}

const MOST_NAMED = 3

function otherWays(toSay: string, { manner }: Told): readonly Line[] {
  return [answer(manner.words.offerHelp), answer(toSay)]
}

function whatToSay(call: Call, { manner, run }: Told): string {
  const { words, fewWords } = manner
  const step = call.kind === 'step' ? call.place.step : null
  if (step?.confirm) return words.confirmHint(textIn(step.confirm, manner))
  if (fewWords?.firstStep(step?.check ?? null, run)) return words.stepHint
  return words.help(helpfulNow(call).slice(0, MOST_NAMED).map(words.phrase))
}

export function respondToAmbiguous(between: readonly Intent[], told: Told): Response {
  const { words } = told.manner
  const call = callNow(told)
  if (call.kind === 'alarm') return command({ type: 'acknowledge-wait', lane: call.lane }, true)
  if (isDoneOrHeard(between)) return ask({ kind: 'which', between }, words.askDone)
  const options = between.map((intent) =>
    intent.type === 'lane'
      ? words.goTo(laneName(told.course, intent.lane, told.manner))
      : words.phrase(intent.type as PlainIntent)
  )
  return ask({ kind: 'which', between }, words.which(options))
}

/** "Okay" where nothing is asked: it was heard, or it is done. */
function isDoneOrHeard(between: readonly Intent[]): boolean {
  return between.every(({ type }) => type === 'yes' || type === 'done')
}

function answerQuestion(asking: Asking, intent: Intent, told: Told): Response | null {
  const { words } = told.manner
  switch (asking.kind) {
    case 'is-that-so':
      if (intent.type === 'yes') return command({ type: 'answer', answer: asking.answer })
      return intent.type === 'no' ? askAgain(asking, told) : null
    case 'stepping':
      return null
    case 'take-back':
      if (intent.type === 'yes') return command({ type: 'take-back' })
      return intent.type === 'no' ? tell(words.leftAsItWas) : null
    case 'did-you-say':
      if (intent.type === 'yes') return respond(NEW_CONVERSATION, asking.intent, told)
      return intent.type === 'no' ? tell(words.leftAsItWas) : null
    case 'is-done':
      if (intent.type === 'yes' || intent.type === 'done') return command({ type: 'done' })
      if (intent.type === 'no') return reply(callWords(told, callNow(told), true).lines)
      return null
    case 'which-correction': {
      if (intent.type !== 'number') return null
      const action = asking.actions[intent.value - 1]
      if (action === undefined) return ask(asking, words.whichCorrection(asking.actions))
      return command({ type: 'correct', lane: asking.lane, action })
    }
    case 'which-part': {
      if (intent.type !== 'number') return null
      const named =
        intent.value === asking.places.length + 1 ? asking.places : asking.places.slice(intent.value - 1, intent.value)
      if (intent.value < 1 || named.length === 0) return ask(asking, words.whichPart(partOptions(asking.places, told)))
      return {
        ...reply([]),
        commands: named.map(({ lane, part }) => ({ type: 'replace-part', lane, part: part.id }) as const)
      }
    }
    case 'which':
      // What was said last is the question itself.
      if (intent.type === 'repeat' && asking.between.some(({ type }) => type === 'repeat')) {
        return reply(callWords(told, callNow(told), true).lines)
      }
      if (!isDoneOrHeard(asking.between)) return null
      if (intent.type === 'yes') return command({ type: 'done' })
      return intent.type === 'no' ? tell(words.leftAsItWas) : null
  }
}

function plainly(intent: Exclude<Intent, { type: 'repeat' | 'slower' | 'more' }>, call: Call, told: Told): Response {
  const { words } = told.manner
  switch (intent.type) {
    case 'done':
    case 'next':
      return isFirstBack(call, told)
        ? ask(
            { kind: 'is-done', step: callKey(call) },
            words.askFirstBack(laneName(told.course, call.lane, told.manner), headlineOf(call, told))
          )
        : command({ type: intent.type })
    case 'pause':
    case 'resume':
      return command({ type: intent.type })
    case 'yes':
    case 'no':
      return yesOrNo(intent.type, call, told)
    case 'phrase':
      return command({ type: 'confirm', how: 'phrase' })
    case 'held':
      return command(call.kind === 'caution' ? { type: 'understood' } : { type: 'confirm', how: 'held' })
    case 'take-back':
      return takeBack(call, told)
    case 'lane':
      return command({ type: 'choose-lane', lane: intent.lane })
    case 'answer':
      return implausible(intent.answer, call, told) ?? command({ type: 'answer', answer: intent.answer })
    case 'number':
      return numberTold(intent, call, told) ?? notAsked(told)
    case 'number-step':
      return notAsked(told)
    case 'correction':
      return namesLaneInHand(call)
        ? command({ type: 'correct', lane: call.lane, action: intent.action })
        : notAsked(told)
    case 'corrected':
      return corrected(call, told)
    case 'report':
      return command({ type: 'report-problem', lane: intent.lane, text: intent.text })
    case 'problem':
      return problem(call, told)
    case 'new-part':
      return newPart(call, told)
    case 'quiet':
      return { ...reply([]), hush: true }
    case 'how-long':
      return reply(timesLeft(told).map(answer))
    case 'ready-when':
      return reply(readyWords(told).map(answer))
    case 'why-here':
      return reply(
        namesLaneInHand(call) ? whyHereWords(told, call.lane).map(answer) : callWords(told, call, true).lines
      )
    case 'what-now':
      return reply(callWords(told, call, true).lines)
    case 'why':
      return reply([
        answer(('place' in call && call.place && textIn(call.place.step.why, told.manner)) || words.noReason)
      ])
    case 'where':
      return reply(whereWords(call, told).map(answer))
    case 'help':
      return tell(words.help(helpfulNow(call).map(words.phrase)))
  }
}

function notAsked({ manner }: Told): Response {
  const noDetail = { left: '', phrase: '', question: '', tool: '', others: '' }
  return tell(manner.words.refusal('not-asked', '', noDetail))
}

function yesOrNo(value: 'yes' | 'no', call: Call, told: Told): Response {
  const { words } = told.manner
  if (call.kind === 'step' && call.place.step.check?.kind === 'yes-no') {
    return command({ type: 'answer', answer: { kind: 'yes-no', value } })
  }
  if (value === 'yes') return command({ type: 'understood' })
  // Whoever does not take the caution in hears it once more; nothing is taken as understood.
  if (call.kind === 'caution') return reply([...callWords(told, call, false).lines, answer(words.cautionHint)])
  return notAsked(told)
}

type StepCall = Extract<Call, { kind: 'step' }>

/** A plain step, the first since the hands came back to its lane. Anything else is answered in so many words anyway. */
function isFirstBack(call: Call, { run, device }: Told): call is StepCall {
  if (call.kind !== 'step' || call.place.step.check !== null || call.place.step.confirm !== null) return false
  const { focus, returned } = handsOf(run, device)
  return returned && focus === call.lane
}

function headlineOf(call: StepCall, told: Told): string {
  return textIn(call.place.step.say, told.manner)
}

function callNow({ course, run, at, device }: Told): Call {
  return callAt(course, run, at, device)
}

/** Where every lane waits, the hands are still where they worked last. */
function laneInHand(call: Call, told: Told): LaneId | null {
  return namesLaneInHand(call) ? call.lane : handsOf(told.run, told.device).focus
}

function problem(call: Call, told: Told): Response {
  const { words } = told.manner
  const lane = laneInHand(call, told)
  if (lane === null) return notAsked(told)
  if (call.kind === 'stopped') return reply(callWords(told, call, false).lines)
  return command({ type: 'report-problem', lane, text: words.reportedByVoice })
}

/** Lane by lane, that in hand first. */
function newPart(call: Call, told: Told): Response {
  const { words } = told.manner
  const here = laneInHand(call, told)
  const order = [here, ...told.course.lanes.map(({ id }) => id)]
  const places = wearPlaces(told.course.procedure).toSorted(
    (one, other) => order.indexOf(one.lane) - order.indexOf(other.lane)
  )
  if (places.length === 0) return tell(words.noWearParts)
  return ask({ kind: 'which-part', places }, words.whichPart(partOptions(places, told)))
}

/** What was done on another lane than the one in hand is taken back only after a question. */
function takeBack(call: Call, told: Told): Response {
  const last = told.run.progress.at(-1)
  const named = last ? progressNamed(told, last) : null
  if (!named || named.lane === laneInHand(call, told)) return command({ type: 'take-back' })
  return ask({ kind: 'take-back' }, told.manner.words.askTakeBack(named.name, named.what))
}

function corrected(call: Call, told: Told): Response {
  const { words } = told.manner
  if (call.kind !== 'stopped' && call.kind !== 'late') return notAsked(told)
  const actions = correctionsFor(told, call)
  if (actions.length > 1)
    return ask({ kind: 'which-correction', lane: call.lane, actions }, words.whichCorrection(actions))
  return command({ type: 'correct', lane: call.lane, action: actions[0] ?? words.correctedByVoice })
}
