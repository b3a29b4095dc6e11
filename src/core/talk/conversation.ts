/** What to do about an operator's intent: a command for the run, words for the operator, or a question first. */
import type { LaneId } from '../procedure/procedure.ts'
import { callAt, type Call } from '../run/call.ts'
import type { Command } from '../run/command.ts'
import type { Answer } from '../run/event.ts'
import { callWords, correctionsFor, laneName, stepNamed, textIn, unitName, type Told } from './call-words.ts'
import type { Intent, PlainIntent } from './intent.ts'
import type { Line } from './line.ts'

/** A question Sidecall asked and has no answer to yet. */
export type Asking =
  | { readonly kind: 'is-that-so'; readonly answer: Answer }
  | { readonly kind: 'take-back' }
  | { readonly kind: 'which'; readonly between: readonly Intent[] }
  | { readonly kind: 'which-correction'; readonly lane: LaneId; readonly actions: readonly string[] }

export interface Conversation {
  readonly asking: Asking | null
  /** What was said last, for saying it again. */
  readonly said: readonly Line[]
  /** Words not understood in a row. */
  readonly misses: number
}

export const NEW_CONVERSATION: Conversation = { asking: null, said: [], misses: 0 }

export interface Response {
  readonly asking: Asking | null
  readonly commands: readonly Command[]
  readonly lines: readonly Line[]
  /** Stop speaking now, before any of `lines`. */
  readonly hush: boolean
}

export function respond(conversation: Conversation, intent: Intent, told: Told): Response {
  const call = callAt(told.course, told.run, told.at)
  if (call.kind === 'alarm') return command({ type: 'acknowledge-wait', lane: call.lane }, true)
  const answered = conversation.asking ? answerQuestion(conversation.asking, intent, told) : null
  return (
    answered ?? (intent.type === 'repeat' ? reply(conversation.said.map((line) => line)) : plainly(intent, call, told))
  )
}

/** Words that meant nothing certain: after two in a row, other ways are offered. */
export function respondToUnknown(conversation: Conversation, told: Told): Response {
  const { words } = told.manner
  const lines = [answer(words.unknown), ...(conversation.misses >= 1 ? [answer(words.offerHelp)] : [])]
  return { ...reply(lines), asking: conversation.asking }
}

export function respondToAmbiguous(between: readonly Intent[], told: Told): Response {
  const { words } = told.manner
  const call = callAt(told.course, told.run, told.at)
  if (call.kind === 'alarm') return command({ type: 'acknowledge-wait', lane: call.lane }, true)
  const options = between.map((intent) =>
    intent.type === 'lane'
      ? laneName(told.course, intent.lane, told.manner).toLowerCase()
      : words.phrase(intent.type as PlainIntent)
  )
  return { ...reply([answer(words.which(options))]), asking: { kind: 'which', between } }
}

function answerQuestion(asking: Asking, intent: Intent, told: Told): Response | null {
  const { words } = told.manner
  switch (asking.kind) {
    case 'is-that-so':
      if (intent.type === 'yes') return command({ type: 'answer', answer: asking.answer })
      if (intent.type === 'no') return reply([answer(words.askNumberAgain)])
      return null
    case 'take-back':
      if (intent.type === 'yes') return command({ type: 'take-back' })
      if (intent.type === 'no') return reply([answer(words.leftAsItWas)])
      return null
    case 'which-correction': {
      const action = intent.type === 'number' ? asking.actions[intent.value - 1] : undefined
      return action === undefined ? null : command({ type: 'correct', lane: asking.lane, action })
    }
    case 'which':
      return null
  }
}

function plainly(intent: Exclude<Intent, { type: 'repeat' }>, call: Call, told: Told): Response {
  const { words } = told.manner
  switch (intent.type) {
    case 'done':
    case 'next':
    case 'pause':
      return command({ type: intent.type })
    case 'resume':
      return command({ type: 'resume' })
    case 'yes':
    case 'no':
      return yesOrNo(intent.type, call)
    case 'phrase':
      return command({ type: 'confirm', how: 'phrase' })
    case 'held':
      return command(call.kind === 'caution' ? { type: 'understood' } : { type: 'confirm', how: 'held' })
    case 'take-back':
      return takeBack(call, told)
    case 'lane':
      return command({ type: 'choose-lane', lane: intent.lane })
    case 'answer':
      return command({ type: 'answer', answer: intent.answer })
    case 'number':
      return number(intent, call, told)
    case 'correction':
      return 'lane' in call
        ? command({ type: 'correct', lane: call.lane, action: intent.action })
        : reply([answer(words.refusal('not-asked', '', NO_DETAIL))])
    case 'corrected':
      return corrected(call, told)
    case 'report':
      return command({ type: 'report-problem', lane: intent.lane, text: intent.text })
    case 'problem': {
      const lane = 'lane' in call ? call.lane : told.run.focus
      return lane === null
        ? reply([answer(words.refusal('not-asked', '', NO_DETAIL))])
        : command({ type: 'report-problem', lane, text: words.reportedByVoice })
    }
    case 'quiet':
      return { ...reply([]), hush: true }
    case 'how-long':
      return reply(timesLeft(told))
    case 'what-now':
      return reply(callWords(told, call, true).lines)
    case 'why':
      return reply([
        answer(('place' in call && call.place && textIn(call.place.step.why, told.manner)) || words.noReason)
      ])
    case 'more':
      return reply([
        answer(('place' in call && call.place && textIn(call.place.step.more, told.manner)) || words.noDetail)
      ])
    case 'help':
      return reply([answer(words.help(helpfulNow(call).map(words.phrase)))])
  }
}

const NO_DETAIL = { left: '', phrase: '', question: '' }

function yesOrNo(value: 'yes' | 'no', call: Call): Response {
  if (call.kind === 'caution' && value === 'yes') return command({ type: 'understood' })
  if (call.kind === 'step' && call.place.step.check?.kind === 'yes-no')
    return command({ type: 'answer', answer: { kind: 'yes-no', value } })
  return command({ type: 'understood' })
}

function number(intent: Extract<Intent, { type: 'number' }>, call: Call, told: Told): Response {
  const { words } = told.manner
  const check = call.kind === 'step' ? call.place.step.check : null
  if (check?.kind === 'count') {
    if (!Number.isInteger(intent.value) || intent.value < 0) return reply([answer(words.askNumberAgain)])
    return ask(
      { kind: 'is-that-so', answer: { kind: 'count', value: intent.value } },
      words.readBack(String(intent.value))
    )
  }
  if (check?.kind !== 'reading') return reply([answer(words.refusal('not-asked', '', NO_DETAIL))])
  if (intent.unit !== null && intent.unit !== check.unit) return reply([answer(words.needsUnit(unitName(check.unit)))])
  const given: Answer = { kind: 'reading', value: intent.value, unit: check.unit }
  return ask({ kind: 'is-that-so', answer: given }, words.readBack(`${intent.value} ${unitName(check.unit)}`))
}

function takeBack(call: Call, told: Told): Response {
  const last = told.run.progress.at(-1)
  const lane = last && 'lane' in last ? last.lane : null
  const elsewhere = lane !== null && 'lane' in call && call.lane !== lane
  if (!last || lane === null || !elsewhere || !('step' in last)) return command({ type: 'take-back' })
  const step = last.step === null ? null : stepNamed(told.course, lane, last.step)
  return ask(
    { kind: 'take-back' },
    told.manner.words.askTakeBack(laneName(told.course, lane, told.manner), step ? textIn(step.say, told.manner) : '')
  )
}

function corrected(call: Call, told: Told): Response {
  const { words } = told.manner
  if (call.kind !== 'stopped' && call.kind !== 'late') return reply([answer(words.refusal('not-asked', '', NO_DETAIL))])
  const actions = correctionsFor(told, call)
  if (actions.length > 1)
    return ask({ kind: 'which-correction', lane: call.lane, actions }, words.whichCorrection(actions))
  return command({ type: 'correct', lane: call.lane, action: actions[0] ?? words.reportedByVoice })
}

function timesLeft({ course, run, at, manner }: Told): readonly Line[] {
  const { words } = manner
  const lines = course.lanes.flatMap((lane) => {
    const waiting = run.lanes[lane.id]?.waiting
    if (!waiting || waiting.acknowledgedAt !== null) return []
    const name = laneName(course, lane.id, manner)
    const left = waiting.due - at
    return [
      answer(
        left > 0
          ? words.time(name, words.wait(waiting.kind), words.duration(left))
          : words.timeOver(name, words.wait(waiting.kind))
      )
    ]
  })
  return lines.length > 0 ? lines : [answer(words.noWaits)]
}

/** What helps at this call, best first; kept short enough to remember. */
export function helpfulNow(call: Call): readonly PlainIntent[] {
  switch (call.kind) {
    case 'caution':
      return ['yes', 'repeat', 'problem']
    case 'step': {
      const { check, confirm } = call.place.step
      if (check?.kind === 'yes-no') return ['yes', 'no', 'repeat', 'why', 'problem']
      if (check || confirm) return ['repeat', 'more', 'why', 'problem']
      return ['done', 'repeat', 'more', 'why', 'take-back', 'pause']
    }
    case 'stopped':
    case 'late':
      return ['corrected', 'repeat', 'why']
    case 'paused':
      return ['resume', 'how-long']
    case 'all-waiting':
      return ['how-long', 'what-now', 'take-back']
    case 'alarm':
    case 'finished':
    case 'abandoned':
    case 'not-started':
      return ['repeat', 'what-now']
  }
}

function command(given: Command, hush = false): Response {
  return { asking: null, commands: [given], lines: [], hush }
}

function reply(lines: readonly Line[]): Response {
  return { asking: null, commands: [], lines, hush: false }
}

function ask(asking: Asking, text: string): Response {
  return { asking, commands: [], lines: [answer(text)], hush: false }
}

function answer(text: string): Line {
  return { priority: 'answer', text, lane: null }
}
