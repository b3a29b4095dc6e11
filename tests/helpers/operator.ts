/** What a sensible operator says to each call, as words for the ears. */
import type { Course } from '../../src/core/procedure/course.ts'
import type { Call } from '../../src/core/run/call.ts'
import { expectedCount } from '../../src/core/run/judge-answer.ts'
import type { Language } from '../../src/core/talk/languages.ts'

const SAID = {
  en: {
    heard: 'okay',
    yes: 'yes',
    no: 'no',
    putRight: 'put right',
    first: 'one',
    resume: 'carry on',
    done: 'all done'
  },
  es: {
    heard: 'bueno',
    yes: 'sí',
    no: 'no',
    putRight: 'ya está corregido',
    first: 'uno',
    resume: 'sigamos adelante',
    done: 'todo listo'
  }
} as const

/** Several utterances when the answer is read back first; none while there is nothing to say. */
export function wordsFor(course: Course, call: Call, language: Language = 'en'): readonly string[] {
  const said = SAID[language]
  switch (call.kind) {
    case 'alarm':
      return [said.heard]
    case 'caution':
      return [said.yes]
    case 'stopped':
    case 'late':
      return [said.putRight, said.first]
    case 'paused':
      return [said.resume]
    case 'step': {
      const { check, confirm } = call.place.step
      if (check?.kind === 'yes-no') return [said[check.good]]
      if (check?.kind === 'reading') return [String(check.min ?? check.max ?? 0), said.yes]
      if (check?.kind === 'count') return [String(expectedCount(course.procedure, call.lane, check.parts)), said.yes]
      return [confirm ? (confirm[language] ?? '') : said.done]
    }
    case 'all-waiting':
    case 'stand-by':
    case 'finished':
    case 'abandoned':
    case 'not-started':
      return []
  }
}
