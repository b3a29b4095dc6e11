/** What can be said in English, by the embedded voice. */
import { layOut } from '../../src/core/procedure/course.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { sayable } from '../../src/core/talk/clips/sayable.ts'
import { soundCheckEn } from '../../src/core/talk/sound-check.en.ts'
import { speakableEn } from '../../src/core/talk/spoken/english.ts'
import type { Pronunciation } from '../../src/core/talk/spoken/speakable.ts'
import { wordsEn } from '../../src/core/talk/words.en.ts'

export function englishPlan(pronunciations: readonly Pronunciation[]): (procedure: Procedure) => readonly string[] {
  return (procedure) => {
    if (!procedure.languages.includes('en')) return []
    const manner = { language: 'en', words: { ...wordsEn, ...soundCheckEn } }
    const { own, shared } = sayable(layOut(procedure), manner, (text) => speakableEn(text, pronunciations))
    return [...own, ...shared]
  }
}
