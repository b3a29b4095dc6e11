/** A call in words: what stands large on the screen, what stands small, and what the voice says. */
import { laneOf, type Course, type LaneStep } from '../procedure/course.ts'
import type { LaneId, Procedure, ReadingUnit, Step, Text } from '../procedure/procedure.ts'
import type { WearPlace } from '../procedure/wear-places.ts'
import type { Call } from '../run/call.ts'
import type { Outlook } from '../plan/outlook.ts'
import { expectedCount, judgeReading, partsExpected } from '../run/judge-answer.ts'
import { roundOf, type Run } from '../run/run.ts'
import type { FewWords } from './few-words.ts'
import type { Line, Priority } from './line.ts'
import { inUnits, type UnitSystem } from './quantities.ts'
import type { Words } from './words.en.ts'

const WORTH_TELLING_MS = 60_000

export interface Manner {
  readonly language: string
  readonly units: UnitSystem
  readonly words: Words
  /** How much is said unasked: everything to somebody new, headlines to somebody who knows the work. */
  readonly telling: 'brief' | 'full'
  /** For ears that know few words, to which numbers are told in steps; null where everything may be said. */
  readonly fewWords: FewWords | null
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
  /** The device that speaks: whose hands are called. */
  readonly device: string
  /** What is planned; null before a plan has been worked out. */
  readonly outlook: Outlook | null
}

export function textIn(text: Text | null, manner: Manner): string {
  return text === null ? '' : inUnits(text[manner.language] ?? Object.values(text)[0] ?? '', manner.units)
}

export function laneName(course: Course, lane: LaneId, manner: Manner): string {
  const found = laneOf(course, lane)
  return found ? textIn(found.name, manner) : lane
}

/** "Left: draw valve seal", for each, and all of them together; chosen by their place in the list. */
export function partOptions(places: readonly WearPlace[], { course, manner }: Told): readonly string[] {
  const { words } = manner
  const each = places.map(({ lane, part }) => words.partAt(laneName(course, lane, manner), textIn(part.name, manner)))
  return places.length > 1 ? [...each, words.allOfThem] : each
}

export function stepNamed(course: Course, lane: LaneId, step: string): Step | null {
  return laneOf(course, lane)?.steps.find((place) => place.step.id === step)?.step ?? null
}

/** Something that counted, by its lane and what it was; null for what belongs to no lane. */
export function progressNamed(
  { course, manner }: Told,
  event: Run['progress'][number]
): { readonly lane: LaneId; readonly name: string; readonly what: string } | null {
  if (!('lane' in event) || event.lane === null) return null
  const { words } = manner
  const step = 'step' in event && event.step !== null ? stepNamed(course, event.lane, event.step) : null
  const what = step
    ? textIn(step.say, manner)
    : event.type === 'corrected'
      ? event.action
      : event.type === 'problem-reported'
        ? event.text
        : event.type === 'part-replaced'
          ? words.replacedPart(partName(course.procedure, event.part, manner))
          : ''
  return { lane: event.lane, name: laneName(course, event.lane, manner), what: what || words.thatStep }
}

/** The id itself where the procedure has no such part. */
export function partName({ parts }: Pick<Procedure, 'parts'>, id: string, manner: Manner): string {
  const part = parts.find((known) => known.id === id)
  return part ? textIn(part.name, manner) : id
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
      const line = words.allWaiting(name, words.timeLeft(call.until - at))
      const meanwhile = meanwhileLines(told, call)
      return { ...spoken(null, line, meanwhile, 'remark', null, true), hints: [] }
    }
    case 'stand-by': {
      const who = run.crew.find(({ device }) => device === call.hands)?.name ?? ''
      return spoken(null, words.standBy(who, laneName(course, call.lane, manner)), [], 'remark', null)
    }
    case 'late': {
      const name = laneName(course, call.lane, manner)
      const late = stepNamed(course, call.lane, call.waiting.step)?.wait?.late
      const action = late ? textIn(late.say, manner) : words.lateDefault
      return spoken(
        name,
        words.late(name, words.wait(call.waiting.kind)),
        [words.correctionHint([action])],
        'answer',
        call.lane,
        true
      )
    }
    case 'stopped':
      return stoppedWords(told, call)
    case 'caution':
      return cautionWords(told, call, returning)
    case 'step':
      return stepWords(told, call.lane, call.place, returning, run)
  }
}

function cautionWords(told: Told, call: Extract<Call, { kind: 'caution' }>, returning: boolean): CallWords {
  const { manner } = told
  const { words } = manner
  const name = laneName(told.course, call.lane, manner)
  const said = call.place.step.cautions.map((caution) =>
    words.caution(
      words.signal(caution.signal),
      textIn(caution.hazard, manner),
      textIn(caution.consequence, manner),
      textIn(caution.avoid, manner)
    )
  )
  const back = returning ? lastWords(told, call.lane) : null
  const [first = '', ...others] = said
  const spokenLines = back === null ? [words.lane(name, first), ...others] : [back, ...said]
  return {
    lane: name,
    headline: said.join(' '),
    hints: [words.cautionHint],
    lines: [...spokenLines, ...(manner.telling === 'full' ? [words.cautionHint] : [])].map((text) =>
      line('caution', text, call.lane)
    )
  }
}

/** The detail of a step, in parts of two sentences: nobody takes in more at once. Empty where there is none. */
export function detailParts(step: Step, manner: Manner): readonly string[] {
  const sentences = textIn(step.more, manner).split(/(?<=[.!?])\s+(?=\p{Lu})/u)
  return sentences.flatMap((sentence, index) =>
    sentence === '' || index % 2 === 1 ? [] : [[sentence, sentences[index + 1] ?? ''].join(' ').trim()]
  )
}

/** For somebody new, in a wait that is worth it: what comes next, and what to do with empty hands. */
function meanwhileLines({ course, run, at, manner }: Told, call: Extract<Call, { kind: 'all-waiting' }>): string[] {
  const { words } = manner
  if (manner.telling === 'brief' || call.until - at < WORTH_TELLING_MS) return []
  const coming = laneOf(course, call.lane)?.steps[run.lanes[call.lane]?.position ?? 0]?.step
  const then = coming ? [words.thenThere(laneName(course, call.lane, manner), textIn(coming.say, manner))] : []
  return [...then, words.whileWaiting]
}

/** The side and what was done last there; null on a lane where nothing was. */
export function lastWords({ course, run, manner }: Told, lane: LaneId): string | null {
  const last = run.lanes[lane]?.last
  const step = last ? stepNamed(course, lane, last.step) : null
  return step ? manner.words.returning(laneName(course, lane, manner), textIn(step.say, manner)) : null
}

function stepWords(told: Told, lane: LaneId, place: LaneStep, returning: boolean, run: Run): CallWords {
  const { course, manner } = told
  const { words } = manner
  const name = laneName(course, lane, manner)
  const { step } = place
  const headline = textIn(step.say, manner)
  const question = step.check ? [textIn(step.check.ask, manner)] : []
  const first = manner.fewWords?.firstStep(step.check, run) ?? null
  const from = first ? [words.stepFrom(answerText(first, words))] : []
  const steps = first ? [words.stepHint] : []
  const hints = [...question, ...from, ...steps, ...stepHints(told, lane, step, run)]
  const back = returning ? lastWords(told, lane) : null
  const lines: Line[] = [
    ...(back === null
      ? [line('step', words.lane(name, headline), lane)]
      : [line('step', back, lane), line('step', words.goingOn(headline), lane)]),
    ...[...question, ...from].map((text) => line('step', text, lane)),
    ...(manner.telling === 'full'
      ? [...steps, ...detailParts(step, manner)].map((text) => line('step', text, lane))
      : []),
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
    const titles = new Set(step.check.heldTo?.map(({ title }) => title))
    if (titles.size > 0) hints.push(words.heldToHint([...titles].join(', ')))
  }
  if (step.check?.kind === 'count') {
    const expected = partsExpected(course.procedure, lane, step.check.parts)
    hints.push(words.countHint(expectedCount(course.procedure, lane, step.check.parts)))
    hints.push(expected.map(({ part, pieces }) => words.pieces(textIn(part.name, manner), pieces)).join(', '))
  }
  const state = run.lanes[lane]
  if (step.repeat && state) hints.push(words.roundHint(roundOf(state, step.id), step.repeat.atMost))
  return hints
}

function stoppedWords(told: Told, call: Extract<Call, { kind: 'stopped' }>): CallWords {
  const { words } = told.manner
  const name = laneName(told.course, call.lane, told.manner)
  const corrections = correctionsFor(told, call)
  const hint = corrections.length === 0 ? words.problemHint : words.correctionHint(corrections)
  const broken = brokenRule(told, call)
  const said = [
    ...(call.stop.kind === 'entries-lost' ? [keptLast(told, call.lane)] : []),
    ...(broken === null ? [] : [broken.text]),
    hint
  ]
  const shown = [...said, ...(broken === null ? [] : [broken.source])]
  return { ...spoken(name, stopHeadline(told, call, name), said, 'answer', call.lane, true), hints: shown }
}

function keptLast({ course, run, manner }: Told, lane: LaneId): string {
  const last = run.lanes[lane]?.last
  const step = last ? stepNamed(course, lane, last.step) : null
  return step ? manner.words.keptLast(textIn(step.say, manner)) : manner.words.keptNothing
}

/** The rule of the shop that a reading breaks; null where only the author's limits are missed. */
function brokenRule(
  { course, run, manner }: Told,
  { lane, place, stop }: Extract<Call, { kind: 'stopped' }>
): { readonly text: string; readonly source: string } | null {
  const event = run.progress.find((known) => known.id === stop.eventId)
  const check = place?.step.check
  if (event?.type !== 'check-answered' || event.answer.kind !== 'reading' || check?.kind !== 'reading') return null
  const judged = judgeReading(course, run, { lane, step: event.step }, check, event.answer)
  if (judged.kind !== 'broken') return null
  const { broken, decided } = judged
  const { words } = manner
  const amount = (value: number) => `${value} ${unitName(broken.unit)}`
  return {
    text: words.brokenRule(amount(broken.value), decided.title, broken.side, amount(broken.bound)),
    source: words.source(decided.source)
  }
}

function stopHeadline({ course, run, manner }: Told, call: Extract<Call, { kind: 'stopped' }>, name: string): string {
  const { words } = manner
  const { stop, place } = call
  if (stop.kind === 'problem') {
    return stop.text === words.reportedByVoice ? words.stopped(name) : words.problem(name, stop.text)
  }
  if (stop.kind === 'entries-lost') return words.entriesLost(name)
  if (stop.kind === 'too-many-rounds') return words.tooManyRounds(name)
  const event = run.progress.find((known) => known.id === stop.eventId)
  if (event?.type !== 'check-answered') return words.stopped(name)
  const { answer } = event
  const check = place?.step.check
  if (answer.kind === 'yes-no') return words.badYesNo(name, words.answeredYesNo[answer.value])
  if (answer.kind === 'count' && check?.kind === 'count') {
    return words.badCount(name, answer.value, expectedCount(course.procedure, call.lane, check.parts))
  }
  return words.badAnswer(name, answerText(answer, words))
}

/** What may be done about a stopped or late lane, in the author's words. */
export function correctionsFor({ course, manner }: Told, call: Call): readonly string[] {
  if (call.kind === 'stopped') {
    if (call.stop.kind === 'entries-lost') return [manner.words.lookedAfterLoss, manner.words.broughtAfterLoss]
    // What to do about a bad answer does not mend a problem that somebody reported.
    const check = call.stop.kind === 'problem' ? null : call.place?.step.check
    return (check?.corrections ?? []).map((text) => textIn(text, manner))
  }
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
