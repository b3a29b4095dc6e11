/** What can be said in a run of a procedure, in a language. */
import { layOut } from '../../src/core/procedure/course.ts'
import { sayable } from '../../src/core/talk/clips/sayable.ts'
import type { Talk } from '../../src/core/talk/languages.ts'
import type { Pronunciation } from '../../src/core/talk/spoken/speakable.ts'
import type { Voice } from './speech.ts'

export function planIn(
  { language, words, soundCheck, speakable }: Talk,
  pronunciations: readonly Pronunciation[]
): Voice['plan'] {
  return (procedure) => {
    if (!procedure.languages.includes(language)) return []
    const manner = { language, words: { ...words, ...soundCheck } }
    const { own, shared } = sayable(layOut(procedure), manner, (text) => speakable(text, pronunciations))
    return [...own, ...shared]
  }
}
