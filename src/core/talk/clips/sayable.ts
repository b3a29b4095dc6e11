/**
 * All that Sidecall can say in a run of one procedure, as spoken, cut into the pieces that are worth a clip each. What stays
 * open until it is said (times left, readings, times of day) is put together from numbers and units.
 */
import type { Course } from '../../procedure/course.ts'
import type { Text } from '../../procedure/procedure.ts'
import type { Manner } from '../call-words.ts'
import { inUnits, type UnitSystem } from '../quantities.ts'
import { fixedPhrases, OPEN } from './fixed-phrases.ts'
import { numberPieces } from './number-pieces.ts'
import { ownTexts } from './own-texts.ts'
import { hasWords, sentences } from './sentences.ts'

export interface SayablePieces {
  /** The author's words: a change of one step changes only its own. */
  readonly own: readonly string[]
  /** What every procedure needs. */
  readonly shared: readonly string[]
}

const SYSTEMS: readonly UnitSystem[] = ['metric', 'us']

/** `speakable` writes figures and short forms out. */
export function sayable(
  course: Course,
  manner: Pick<Manner, 'language' | 'words'>,
  speakable: (text: string) => string
): SayablePieces {
  const { language, words } = manner
  const written = (text: Text) => text[language] ?? Object.values(text)[0] ?? ''
  const own = new Set<string>()
  const shared = new Set<string>()
  for (const units of SYSTEMS) {
    for (const text of ownTexts(course.procedure)) {
      for (const sentence of sentences(speakable(inUnits(written(text), units)))) own.add(sentence)
    }
  }
  const names = course.lanes.map(({ name }) => written(name))
  for (const phrase of [...names, ...fixedPhrases(words, names, titlesIn(course))]) {
    for (const piece of pieces(speakable(phrase))) shared.add(piece)
  }
  for (const piece of numberPieces(language, speakable)) shared.add(piece)
  for (const piece of own) shared.delete(piece)
  return { own: [...own], shared: [...shared] }
}

/** Of rule sets and labels: they are named when a reading is judged. */
function titlesIn({ procedure }: Course): readonly string[] {
  const checks = procedure.stages.flatMap(({ steps }) => steps.map(({ check }) => check))
  const titles = checks.flatMap((check) => (check?.kind === 'reading' ? (check.heldTo ?? []) : []))
  return [...new Set(titles.map(({ title }) => title))]
}

/** Fixed phrases are cut finer, at what is open and before what follows a colon. */
function pieces(spoken: string): readonly string[] {
  return spoken
    .split(OPEN)
    .flatMap((part) => part.split(/(?<=[.!?:]) /))
    .map((part) => part.replace(/^[\s.,;:!?]+/, '').trim())
    .filter(hasWords)
}
