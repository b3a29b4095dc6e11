/**
 * Plays a conversation the way src/app/conductor.ts conducts one: heard words become intents, intents commands, commands
 * events, and what is said follows from them. A script is text, one line each:
 *
 *     Sidecall: Left. Fill the hopper.
 *     Operator: all done                      (alternatives of the recogniser: all dumb / all done)
 *     (5 min pass)
 *     (holds the key)
 *
 * The transcript comes back in the same form, so that a test compares it with the script itself.
 */
import { expect } from 'vitest'
import type { Course } from '../../src/core/procedure/course.ts'
import { parseDuration } from '../../src/core/procedure/duration.ts'
import { callAt, namesLaneInHand, type Call } from '../../src/core/run/call.ts'
import type { Command } from '../../src/core/run/command.ts'
import { decide } from '../../src/core/run/decide.ts'
import type { RunEvent, Via } from '../../src/core/run/event.ts'
import { replay } from '../../src/core/run/reduce.ts'
import { FIRST_HANDS, handsOf, type Run } from '../../src/core/run/run.ts'
import { announceDecision, announceTime, callKey } from '../../src/core/talk/announce.ts'
import { callWords, type Manner, type Told } from '../../src/core/talk/call-words.ts'
import {
  NEW_CONVERSATION,
  respond,
  respondToAmbiguous,
  respondToUnknown,
  type Conversation
} from '../../src/core/talk/conversation.ts'
import { expectingAt } from '../../src/core/talk/expecting-at.ts'
import { hear } from '../../src/core/talk/hear.ts'
import type { Intent } from '../../src/core/talk/intent.ts'
import { PRIORITIES, type Line } from '../../src/core/talk/line.ts'
import type { Response } from '../../src/core/talk/response.ts'
import { vocabularyEn } from '../../src/core/talk/vocabulary.en.ts'
import { wordsEn } from '../../src/core/talk/words.en.ts'
import { wordsFor } from './operator.ts'
import { counting, STARTED } from './stamping.ts'

export const METRIC: Manner = { language: 'en', units: 'metric', words: wordsEn, telling: 'brief', fewWords: null }

export interface Talk {
  run(): Run
  events(): readonly RunEvent[]
  call(): Call
  /** Everything said since the start or the last look, one line each. */
  transcript(): readonly string[]
  open(): void
  hearWords(...alternatives: readonly string[]): void
  intend(intent: Intent): void
  carryOut(command: Command): void
  /** Seconds go by, one at a time. */
  pass(seconds: number): void
  /** A sensible operator works in silence until the step is called (`left soak`), taking the stated time for each. */
  workUpTo(place: string): void
}

export function startTalk(course: Course, manner: Manner = METRIC): Talk {
  const stamp = counting()
  let at = 1_000_000
  let events: readonly RunEvent[] = [stamp(at)(STARTED)]
  let run = replay(course, 'run', events)
  let conversation: Conversation = NEW_CONVERSATION
  let announced: Call = callAt(course, run, at)
  let ringing: string | null = null
  let transcript: string[] = []
  const told = (): Told => ({ course, run, at, manner, device: FIRST_HANDS, outlook: null })

  /** In the order the speaker gives them to the mouth. */
  function say(lines: readonly Line[]): void {
    if (lines.length === 0) return
    conversation = { ...conversation, said: lines }
    const rank = ({ priority }: Line) => PRIORITIES.indexOf(priority)
    const queue = lines.map((line, index) => ({ line, index }))
    queue.sort((a, b) => rank(a.line) - rank(b.line) || a.index - b.index)
    transcript.push(...queue.map(({ line }) => `Sidecall: ${line.text}`))
  }

  function ring(): void {
    const key = announced.kind === 'alarm' ? callKey(announced) : null
    if (key !== null && key !== ringing) say(callWords(told(), announced, false).lines)
    ringing = key
  }

  function carryOut(command: Command, via: Via = 'voice'): void {
    const before = run
    const decision = decide(course, run, command, at, stamp(at, via))
    events = [...events, ...decision.events]
    run = replay(course, 'run', events)
    const lines = announceDecision(before, command, decision, told())
    announced = callAt(course, run, at)
    say(announced.kind === 'alarm' ? lines.filter((line) => line.priority !== 'alarm') : lines)
    ring()
  }

  function look(): void {
    const call = callAt(course, run, at)
    if (callKey(call) === callKey(announced)) return
    const lines = call.kind === 'alarm' ? [] : announceTime(announced, told())
    announced = call
    say(lines)
    if (namesLaneInHand(call) && call.kind !== 'alarm' && call.lane !== handsOf(run, FIRST_HANDS).focus)
      carryOut({ type: 'call-hands' }, 'app')
    ring()
  }

  function follow(response: Response): void {
    conversation = { ...conversation, asking: response.asking }
    say(response.lines)
    for (const command of response.commands) carryOut(command)
  }

  const expecting = () => expectingAt(callAt(course, run, at), conversation.asking, told())

  function hearWords(...alternatives: readonly string[]): void {
    const hearing = hear(alternatives, vocabularyEn, expecting())
    if (hearing.kind === 'unknown') {
      const response = respondToUnknown(conversation, told())
      conversation = { ...conversation, misses: conversation.misses + 1 }
      return follow(response)
    }
    conversation = { ...conversation, misses: 0 }
    follow(
      hearing.kind === 'meant'
        ? respond(conversation, hearing.intent, told())
        : respondToAmbiguous(hearing.between, told())
    )
  }

  function pass(seconds: number): void {
    for (let second = 0; second < seconds; second += 1) {
      at += 1000
      look()
    }
  }

  return {
    run: () => run,
    events: () => events,
    call: () => callAt(course, run, at),
    transcript: () => transcript,
    open: () => say(callWords(told(), announced, true).lines),
    hearWords,
    intend: (intent) => follow(respond(conversation, intent, told())),
    carryOut,
    pass,
    workUpTo(place) {
      for (let turn = 0; turn < 500; turn += 1) {
        const call = callAt(course, run, at)
        const isStep = call.kind === 'step' || call.kind === 'caution'
        if (isStep && `${call.lane} ${call.place.step.id}` === place) break
        if (call.kind === 'all-waiting') pass(Math.ceil((call.until - at) / 1000))
        else {
          if (call.kind === 'step') pass(call.place.step.handsSeconds)
          for (const words of wordsFor(course, callAt(course, run, at))) hearWords(words)
          if (conversation.asking?.kind === 'is-done') hearWords('yes')
        }
      }
      transcript = []
    }
  }
}

export interface ScriptOptions {
  /** Where the script begins, such as `left soak`; the beginning of the run when left out. */
  readonly from?: string
  readonly manner?: Manner
}

/** Plays what the operator does in a script; returns the transcript, in the script's own form. */
function playScript(course: Course, script: string, { from, manner }: ScriptOptions = {}): string {
  const talk = startTalk(course, manner)
  if (from !== undefined) talk.workUpTo(from)
  talk.open()
  const played: string[] = [...talk.transcript()]
  for (const line of linesOf(script)) {
    if (line.startsWith('Sidecall: ')) continue
    const already = talk.transcript().length
    actOn(talk, line)
    played.push(line, ...talk.transcript().slice(already))
  }
  return played.join('\n')
}

function linesOf(script: string): readonly string[] {
  return script
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
}

const ACTIONS: readonly (readonly [pattern: RegExp, act: (talk: Talk, ...parts: readonly string[]) => void])[] = [
  [/^Operator: (.*)$/, (talk, words = '') => talk.hearWords(...words.split(' / '))],
  [/^\((.+) pass(?:es)?\)$/, (talk, time = '') => talk.pass(secondsOf(time))],
  [/^\(holds the key\)$/, (talk) => talk.intend({ type: 'held' })],
  [/^\(presses the pedal\)$/, (talk) => talk.intend({ type: 'done' })],
  [/^\(touches (\w+)\)$/, (talk, lane = '') => talk.intend({ type: 'lane', lane })],
  [/^\(chooses: (.+)\)$/, (talk, action = '') => talk.intend({ type: 'correction', action })],
  [/^\(reports on (\w+): (.+)\)$/, (talk, lane = '', text = '') => talk.intend({ type: 'report', lane, text })],
  [/^\(hands over to (.+)\)$/, (talk, to = '') => talk.carryOut({ type: 'hand-over', to })],
  [/^\(ends the run: (.+)\)$/, (talk, reason = '') => talk.carryOut({ type: 'abandon', reason })]
]

function actOn(talk: Talk, line: string): void {
  for (const [pattern, act] of ACTIONS) {
    const match = pattern.exec(line)
    if (match) return act(talk, ...match.slice(1))
  }
  throw new Error(`a script cannot say: ${line}`)
}

function secondsOf(time: string): number {
  const seconds = parseDuration(time)
  if (seconds === null) throw new Error(`a script cannot wait for: ${time}`)
  return seconds
}

/** Plays the operator's part of a script and expects every word of Sidecall's. */
export function expectScript(course: Course, script: string, options: ScriptOptions = {}): void {
  expect(playScript(course, script, options)).toBe(linesOf(script).join('\n'))
}
