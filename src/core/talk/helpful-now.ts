/** Answers to questions that change nothing: what can be said now, and how long the waits still take. */
import type { Call } from '../run/call.ts'
import { laneName, type Told } from './call-words.ts'
import type { PlainIntent } from './intent.ts'

/** One sentence for each wait that nobody has answered yet. */
export function timesLeft({ course, run, at, manner }: Told): readonly string[] {
  const { words } = manner
  const lines = course.lanes.flatMap((lane) => {
    const waiting = run.lanes[lane.id]?.waiting
    if (!waiting || waiting.acknowledgedAt !== null) return []
    const name = laneName(course, lane.id, manner)
    const left = waiting.due - at
    return [
      left > 0
        ? words.time(name, words.wait(waiting.kind), words.duration(left))
        : words.timeOver(name, words.wait(waiting.kind))
    ]
  })
  return lines.length > 0 ? lines : [words.noWaits]
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
