/** What a sensible operator says to each call, as words for the ears. */
import type { Course } from '../../src/core/procedure/course.ts'
import type { Call } from '../../src/core/run/call.ts'
import { expectedCount } from '../../src/core/run/judge-answer.ts'

/** Several utterances when the answer is read back first; none while there is nothing to say. */
export function wordsFor(course: Course, call: Call): readonly string[] {
  switch (call.kind) {
    case 'alarm':
      return ['okay']
    case 'caution':
      return ['yes']
    case 'stopped':
    case 'late':
      return ['put right', 'one']
    case 'paused':
      return ['carry on']
    case 'step': {
      const { check, confirm } = call.place.step
      if (check?.kind === 'yes-no') return [check.good]
      if (check?.kind === 'reading') return [String(check.min ?? check.max ?? 0), 'yes']
      if (check?.kind === 'count') return [String(expectedCount(course.procedure, call.lane, check.parts)), 'yes']
      return [confirm ? (confirm['en'] ?? '') : 'all done']
    }
    case 'all-waiting':
    case 'stand-by':
    case 'finished':
    case 'abandoned':
    case 'not-started':
      return []
  }
}
