/** A call in words: what stands large on the screen, what stands small, and what the voice says. */
import { laneOf, type Course, type LaneStep } from '../procedure/course.ts'
import type { LaneId, ReadingUnit, Step, Text } from '../procedure/procedure.ts'
import type { Call } from '../run/call.ts'
import { expectedCount } from '../run/judge-answer.ts'
import { roundOf, type Run } from '../run/run.ts'
import type { Line, Priority } from './line.ts'
import { inUnits, type UnitSystem } from './quantities.ts'
import type { Words } from './words.en.ts'

export interface Manner {
  readonly language: string
  readonly units: UnitSystem
  readonly words: Words
}

export interface CallWords {
  /** Name of the lane, or null when the call is for no lane. */
  readonly lane: string | null
  readonly headline: string
  /** What answers it, limits and sources; may be empty. */
  readonly hints: readonly string[]
  readonly lines: readonly Line[]
}

export interface Told {
  readonly course: Course
  readonly run: Run
  readonly at: number
  readonly manner: Manner
}

export function textIn(text: Text | null, manner: Manner): string {
  return text === null ? '' : inUnits(text[manner.language] ?? Object.values(text)[0] ?? '', manner.units)
}

export function laneName(course: Course, lane: LaneId, manner: Manner): string {
  const found = laneOf(course, lane)
  return found ? textIn(found.name, manner) : lane
}

export function stepNamed(course: Course, lane: LaneId, step: string): Step | null {
  return laneOf(course, lane)?.steps.find((place) => place.step.id === step)?.step ?? null
}

export function unitName(unit: ReadingUnit): string {
  return { '[ppm]': 'ppm', Cel: '°C', '[degF]': '°F', '[pH]': 'pH' }[unit]
}

/** `returning`: the hands come back to this lane from another, so it says first what was done here last. */
export function callWords(told: Told, call: Call, returning: boolean): CallWords {
  const { course, run, manner, at } = told
  const { words } = manner
  switch (call.kind) {
    case 'not-started':
      return spoken(null, words.notStarted, [], 'remark', null)
    case 'paused':
      return spoken(null, words.paused, [], 'answer', null)
    case 'finished':
      return spoken(null, words.finished, [], 'step', null)
    case 'abandoned':
      return spoken(null, words.abandoned, [], 'step', null)
    case 'alarm': {
      const name = laneName(course, call.lane, manner)
      const over = at - call.waiting.due
      const kind = words.wait(call.waiting.kind)
      const headline =
        over < 60_000 ? words.alarm(name, kind) : words.overdue(name, kind, words.duration(over - (over % 60_000)))
      return spoken(name, headline, [words.alarmHint], 'alarm', call.lane)
    }
    case 'all-waiting': {
      const name = laneName(course, call.lane, manner)
      return spoken(null, words.allWaiting(name, words.duration(call.until - at)), [], 'remark', null)
    }
    case 'late': {
      const name = laneName(course, call.lane, manner)
      const late = stepNamed(course, call.lane, call.waiting.step)?.wait?.late
      const action = late ? textIn(late.say, manner) : words.lateDefault
      return spoken(
        name,
        words.late(name, words.wait(call.waiting.kind)),
        [words.correctionHint(action)],
        'answer',
        call.lane,
        true
      )
    }
    case 'stopped':
      return stoppedWords(told, call)
    case 'caution': {
      const name = laneName(course, call.lane, manner)
      const said = call.place.step.cautions.map((caution) =>
        words.caution(
          words.signal(caution.signal),
          textIn(caution.hazard, manner),
          textIn(caution.consequence, manner),
          textIn(caution.avoid, manner)
        )
      )
      const lines: Line[] = said.map((text, index) => ({
        priority: 'caution',
        text: index === 0 ? words.lane(name, text) : text,
        lane: call.lane
      }))
      return { lane: name, headline: said.join(' '), hints: [words.cautionHint], lines }
    }
    case 'step':
      return stepWords(told, call.lane, call.place, returning, run)
  }
}

function stepWords(told: Told, lane: LaneId, place: LaneStep, returning: boolean, run: Run): CallWords {
  const { course, manner } = told
  const { words } = manner
  const name = laneName(course, lane, manner)
  const { step } = place
  const headline = textIn(step.say, manner)
  const question = step.check ? [textIn(step.check.ask, manner)] : []
  const hints = [...question, ...stepHints(told, lane, step, run)]
  const last = run.lanes[lane]?.last
  const before = returning && last ? stepNamed(course, lane, last.step) : null
  const lines: Line[] = [
    ...(before ? [line('step', words.returning(name, textIn(before.say, manner)), lane)] : []),
    line('step', before ? headline : words.lane(name, headline), lane),
    ...question.map((text) => line('step', text, lane)),
    ...(step.confirm ? [line('step', words.confirmHint(textIn(step.confirm, manner)), lane)] : [])
  ]
  return { lane: name, headline, hints, lines }
}

function stepHints({ course, manner }: Told, lane: LaneId, step: Step, run: Run): readonly string[] {
  const { words } = manner
  const hints: string[] = []
  if (step.confirm) hints.push(words.confirmHint(textIn(step.confirm, manner)))
  if (step.check?.kind === 'reading') {
    hints.push(
      words.readingHint(
        words.limits(step.check.min, step.check.max, unitName(step.check.unit)),
        textIn(step.check.source, manner)
      )
    )
  }
  if (step.check?.kind === 'count') hints.push(words.countHint(expectedCount(course.procedure, lane, step.check.parts)))
  const state = run.lanes[lane]
  if (step.repeat && state) hints.push(words.roundHint(roundOf(state, step.id), step.repeat.atMost))
  return hints
}

function stoppedWords(told: Told, call: Extract<Call, { kind: 'stopped' }>): CallWords {
  const { course, run, manner } = told
  const { words } = manner
  const name = laneName(course, call.lane, manner)
  const corrections = correctionsFor(told, call)
  const hint = corrections[0] === undefined ? words.problemHint : words.correctionHint(corrections.join(' / '))
  if (call.stop.kind === 'problem')
    return spoken(name, words.problem(name, call.stop.text), [words.problemHint], 'answer', call.lane)
  if (call.stop.kind === 'too-many-rounds')
    return spoken(name, words.tooManyRounds(name), [hint], 'answer', call.lane, true)
  const event = run.progress.find((known) => known.id === call.stop.eventId)
  const answered = event?.type === 'check-answered' ? answerText(event.answer, words) : ''
  return spoken(name, words.badAnswer(name, answered), [hint], 'answer', call.lane, true)
}

/** What may be done about a stopped or late lane, in the author's words. */
export function correctionsFor({ course, manner }: Told, call: Call): readonly string[] {
  if (call.kind === 'stopped') return (call.place?.step.check?.corrections ?? []).map((text) => textIn(text, manner))
  if (call.kind === 'late') {
    const late = stepNamed(course, call.lane, call.waiting.step)?.wait?.late
    return late ? [textIn(late.say, manner)] : []
  }
  return []
}

export function answerText(
  answer: Extract<Run['progress'][number], { type: 'check-answered' }>['answer'],
  words: Words
): string {
  if (answer.kind === 'yes-no') return words.answeredYesNo[answer.value]
  return answer.kind === 'reading' ? `${answer.value} ${unitName(answer.unit)}` : String(answer.value)
}

function spoken(
  lane: string | null,
  headline: string,
  hints: readonly string[],
  priority: Priority,
  laneId: LaneId | null,
  sayHints = false
): CallWords {
  return {
    lane,
    headline,
    hints,
    lines: [line(priority, headline, laneId), ...(sayHints ? hints.map((hint) => line(priority, hint, laneId)) : [])]
  }
}

function line(priority: Priority, text: string, lane: LaneId | null): Line {
  return { priority, text, lane }
}
