/** What can be said in a run of a procedure, in each language that a voice may be found for. */
import { layOut } from '../../src/core/procedure/course.ts'
import { sayable } from '../../src/core/talk/clips/sayable.ts'
import type { Talk } from '../../src/core/talk/languages.ts'
import { SPANISH } from '../../src/core/talk/spanish.ts'
import { soundCheckEn } from '../../src/core/talk/sound-check.en.ts'
import { speakableEn } from '../../src/core/talk/spoken/english.ts'
import type { Pronunciation } from '../../src/core/talk/spoken/speakable.ts'
import { wordsEn } from '../../src/core/talk/words.en.ts'
import type { Voice } from './speech.ts'

type Said = Pick<Talk, 'language' | 'words' | 'soundCheck' | 'speakable'>

const ENGLISH: Said = { language: 'en', words: wordsEn, soundCheck: soundCheckEn, speakable: speakableEn }

export function englishPlan(pronunciations: readonly Pronunciation[]): Voice['plan'] {
  return planIn(ENGLISH, pronunciations)
}

export function spanishPlan(pronunciations: readonly Pronunciation[]): Voice['plan'] {
  return planIn(SPANISH, pronunciations)
}

function planIn(
  { language, words, soundCheck, speakable }: Said,
  pronunciations: readonly Pronunciation[]
): Voice['plan'] {
  return (procedure) => {
    if (!procedure.languages.includes(language)) return []
    const manner = { language, words: { ...words, ...soundCheck } }
    const { own, shared } = sayable(layOut(procedure), manner, (text) => speakable(text, pronunciations))
    return [...own, ...shared]
  }
}
