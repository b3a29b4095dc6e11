/** Answers to questions that change nothing: what can be said now, how long the waits still take, where everything stands. */
import type { LaneId } from '../procedure/procedure.ts'
import type { Call } from '../run/call.ts'
import { handsOf } from '../run/run.ts'
import { callWords, detailParts, laneName, lastWords, type Told } from './call-words.ts'
import type { PlainIntent } from './intent.ts'
import type { Line } from './line.ts'

/** One sentence for each wait that nobody has answered yet, save that of one lane. */
export function timesLeft({ course, run, at, manner }: Told, except: LaneId | null = null): readonly string[] {
  const { words } = manner
  const lines = course.lanes.flatMap((lane) => {
    const waiting = run.lanes[lane.id]?.waiting
    if (!waiting || waiting.acknowledgedAt !== null || lane.id === except) return []
    const name = laneName(course, lane.id, manner)
    const left = waiting.due - at
    return [
      left > 0
        ? words.time(name, words.wait(waiting.kind), words.timeLeft(left))
        : words.timeOver(name, words.wait(waiting.kind))
    ]
  })
  return lines.length > 0 || except !== null ? lines : [words.noWaits]
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
    case 'stand-by':
      return ['how-long', 'ready-when', 'what-now', 'take-back']
    case 'alarm':
    case 'finished':
    case 'abandoned':
    case 'not-started':
      return ['repeat', 'what-now']
  }
}

/** The next part of the step's detail: each asking tells on from the last. */
export function moreOf(said: readonly Line[], call: Call, told: Told): string {
  const parts = 'place' in call && call.place ? detailParts(call.place.step, told.manner) : []
  const last = parts.findIndex((part) => said.some(({ text }) => text === part))
  return parts[last + 1] ?? told.manner.words.noDetail
}

/** Side, last thing done, next thing, and what the others wait for. */
export function whereWords(call: Call, told: Told): readonly string[] {
  const { focus } = handsOf(told.run, told.device)
  const last = call.kind === 'all-waiting' && focus !== null ? lastWords(told, focus) : null
  return [
    ...(last === null ? [] : [last]),
    ...callWords(told, call, true).lines.map(({ text }) => text),
    ...timesLeft(told, 'lane' in call ? call.lane : '')
  ]
}
