/** What to say once a command has been carried out or refused, and when time alone changed what matters. */
import { callAt, type Call } from '../run/call.ts'
import type { Command } from '../run/command.ts'
import type { Decision } from '../run/decide.ts'
import type { RunEvent } from '../run/event.ts'
import type { Run } from '../run/run.ts'
import { callWords, laneName, stepNamed, textIn, type Told } from './call-words.ts'
import type { Line } from './line.ts'

/** Two calls with one key are the same call: nothing new has to be said. */
export function callKey(call: Call): string {
  switch (call.kind) {
    case 'caution':
    case 'step':
      return `${call.kind} ${call.lane} ${call.place.step.id}`
    case 'alarm':
    case 'late':
      return `${call.kind} ${call.lane} ${call.waiting.step} ${call.waiting.round} ${call.waiting.due}`
    case 'stopped':
      return `${call.kind} ${call.lane} ${call.stop.eventId}`
    case 'all-waiting':
      return `${call.kind} ${call.lane} ${call.until}`
    case 'not-started':
    case 'paused':
    case 'finished':
    case 'abandoned':
      return call.kind
  }
}

/** `before` is the run just before the decision; `told.run` the run after it. */
export function announceDecision(before: Run, command: Command, decision: Decision, told: Told): readonly Line[] {
  if (decision.kind === 'refused') return [refusalLine(decision, told)]
  const results = decision.events.flatMap((event) => resultLines(before, event, told))
  return [
    ...results,
    ...callLines(
      before,
      told,
      command.type === 'choose-lane' || command.type === 'take-back' || command.type === 'resume'
    )
  ]
}

/** Time passed: a wait ended or a maximum was missed. Empty when the call is still the same. */
export function announceTime(previous: Call, told: Told): readonly Line[] {
  const call = callAt(told.course, told.run, told.at)
  return callKey(call) === callKey(previous) ? [] : callWords(told, call, false).lines
}

function callLines(before: Run, told: Told, always: boolean): readonly Line[] {
  const { course, run, at } = told
  const [previous, call] = [callAt(course, before, at), callAt(course, run, at)]
  const sameStepAgain =
    previous.kind === 'step' && call.kind === 'step' && run.progress.length !== before.progress.length
  if (!always && !sameStepAgain && callKey(previous) === callKey(call)) return []
  return callWords(told, call, comesBack(previous, call, before, run)).lines
}

/** The hands leave one lane for another that they have worked on before. */
function comesBack(previous: Call, call: Call, before: Run, run: Run): boolean {
  if (!('lane' in call)) return false
  const from = before.progress.at(-1)
  const came = 'lane' in previous ? previous.lane : null
  const lastWorked = run.progress.at(-1) ?? from
  const worked = lastWorked && 'lane' in lastWorked ? lastWorked.lane : came
  return worked !== null && worked !== call.lane && run.lanes[call.lane]?.last !== null
}

function resultLines(before: Run, event: RunEvent, told: Told): readonly Line[] {
  const { course, run, manner } = told
  const { words } = manner
  switch (event.type) {
    case 'step-done':
    case 'check-answered': {
      const waiting = run.lanes[event.lane]?.waiting
      const begun =
        waiting && waiting.step === event.step && waiting.round === event.round && waiting.since === event.at
      return begun
        ? [
            remark(
              words.waitBegins(
                laneName(course, event.lane, manner),
                words.wait(waiting.kind),
                words.duration(waiting.due - waiting.since)
              ),
              event.lane
            )
          ]
        : []
    }
    case 'taken-back': {
      const cancelled = before.progress.find((known) => known.id === event.cancels)
      if (!cancelled || !('lane' in cancelled) || cancelled.lane === null) return []
      const step =
        'step' in cancelled && cancelled.step !== null ? stepNamed(course, cancelled.lane, cancelled.step) : null
      const what = step ? textIn(step.say, manner) : cancelled.type === 'problem-reported' ? cancelled.text : ''
      return [
        {
          priority: 'answer',
          text: words.takenBack(laneName(course, cancelled.lane, manner), what),
          lane: cancelled.lane
        }
      ]
    }
    case 'resumed':
      return [{ priority: 'answer', text: words.resumed, lane: null }]
    case 'handed-over':
      return [{ priority: 'answer', text: words.handedOver(event.to), lane: null }]
    case 'problem-reported':
      return [{ priority: 'answer', text: words.problemNoted(laneName(course, event.lane, manner)), lane: event.lane }]
    default:
      return []
  }
}

function refusalLine(decision: Extract<Decision, { kind: 'refused' }>, told: Told): Line {
  const { course, manner } = told
  const { reason, lane, step, remainingMs } = decision.refusal
  const found = lane !== null && step !== null ? stepNamed(course, lane, step) : null
  const text = manner.words.refusal(reason, lane === null ? '' : laneName(course, lane, manner), {
    left: manner.words.duration(remainingMs ?? 0),
    phrase: textIn(found?.confirm ?? null, manner),
    question: textIn(found?.check?.ask ?? null, manner)
  })
  return { priority: 'answer', text, lane }
}

function remark(text: string, lane: string): Line {
  return { priority: 'remark', text, lane }
}
