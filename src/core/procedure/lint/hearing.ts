/** What can be taken in by ear, over a freezer, with full hands. */
import { inUnits } from '../../talk/quantities.ts'
import { LANGUAGES, type Language } from '../../talk/languages.ts'
import { vocabularyEn, type Vocabulary } from '../../talk/vocabulary.en.ts'
import { vocabularyEs } from '../../talk/vocabulary.es.ts'
import type { Problem } from '../problem.ts'
import type { Rule } from './rule.ts'
import type { Patterns } from './reading.ts'
import { sentencesIn, spokenIn, stepsIn, wordsIn, type PlacedStep, type SpokenText } from './steps-in.ts'

const MOST_WORDS = 20
const MOST_FACTS = 3
const VERBS =
  'add|brush|build|carry|close|count|dip|drain|draw|empty|fill|gather|grease|hang|hook|lay|lift|loosen|mix|mop|open|peel|pour|press|pull|push|put|remove|rinse|roll|rub|scrape|scrub|set|slide|spray|start|stir|swab|take|throw|tighten|turn|unhook|unscrew|wash|wipe|write'
const VERBOS =
  'abra|afloje|agregue|apague|apriete|arme|cepille|cierre|cuelgue|cuente|deslice|despegue|destornille|eche|empiece|empuje|encienda|enganche|engrase|enjuague|escriba|frote|jale|lave|levante|limpie|llene|lleve|meta|mezcle|moje|oprima|ponga|prepare|quite|raspe|reúna|revuelva|saque|seque|talle|tire|tome|trapee|vacíe|vierta'
/** "Lift it off and carry it over" is one movement with one thing; "lift it off and tighten the screw" is two. */
const SECOND_ACTION: Patterns = {
  en: new RegExp(`^\\S+ (?!and\\b).*\\b(?:and|then) (?:${VERBS}) (?!it\\b|them\\b)\\w`, 'i'),
  // Spanish ties "it" to the verb: "quítela y llévela".
  es: new RegExp(`^\\S+ (?!y ).* (?:y|luego|después) (?:${VERBOS}) [\\p{L}\\d]`, 'iu')
}
const LATE_CONDITION: Patterns = {
  en: /^(?!when\b|if\b|once\b|as soon\b|with\b)[^,]* (?:when|if|once|as soon as) /i,
  es: /^(?!cuando |si |una vez |en cuanto |con )[^,]* (?:cuando|en cuanto|una vez que) /i
}

const inEachText = (what: (spoken: SpokenText) => Problem | null): Rule['find'] => {
  return (procedure) => stepsIn(procedure).flatMap((placed) => spokenIn(placed).flatMap((spoken) => what(spoken) ?? []))
}

/** Once for each step: its languages say the same. */
const inEachHeadline = (
  what: (headline: string, language: Language, placed: PlacedStep) => Problem | null
): Rule['find'] => {
  return (procedure) =>
    stepsIn(procedure).flatMap((placed) =>
      LANGUAGES.flatMap((language) => what(placed.step.say[language] ?? '', language, placed) ?? []).slice(0, 1)
    )
}

const tooLongToHear: Rule = {
  id: 'too-long-to-hear',
  weight: 'warning',
  reason: 'A longer sentence is forgotten before it ends.',
  source: 'ASD-STE100, rule 5.1: at most 20 words in a procedural sentence.',
  find: inEachText(({ text, path }) => {
    const long = sentencesIn(inUnits(text, 'metric')).find((sentence) => wordsIn(sentence).length > MOST_WORDS)
    return long === undefined
      ? null
      : {
          path,
          what: `This sentence has ${wordsIn(long).length} words.`,
          mend: 'Make two of it, or cut what is not needed.'
        }
  })
}

const tooManyFacts: Rule = {
  id: 'too-many-facts',
  weight: 'warning',
  reason: 'Of more than three facts heard at once, some are lost.',
  source: 'Barshi and Healy on spoken instructions, from memory.',
  find: inEachText(({ text, path }) => {
    const facts = sentencesIn(text).length
    return facts <= MOST_FACTS
      ? null
      : { path, what: `This tells ${facts} facts at once.`, mend: 'Keep the three that matter, or make steps of them.' }
  })
}

const twoActions: Rule = {
  id: 'two-actions',
  weight: 'warning',
  reason: 'One answer cannot tell which of two actions was done.',
  source: 'ASD-STE100, rule 5.2: one instruction in a sentence.',
  find: inEachHeadline((say, language, { path }) =>
    SECOND_ACTION[language].test(say) || sentencesIn(say).length > 1
      ? { path: [...path, 'say'], what: 'Two actions stand in one step.', mend: 'Give each its own step.' }
      : null
  )
}

const conditionAfter: Rule = {
  id: 'condition-after-command',
  weight: 'warning',
  reason: 'Whoever hears the command first begins before the condition comes.',
  source: 'ASD-STE100, rule 5.4: the condition comes first.',
  find: inEachHeadline((say, language, { path }) =>
    LATE_CONDITION[language].test(say)
      ? {
          path: [...path, 'say'],
          what: 'The condition comes after the command.',
          mend: 'Begin with it: "When it is dry, ...".'
        }
      : null
  )
}

/** Whole phrases that the ears act on; `\b` knows no accents. Names of shared places are what the work is about: they do not count. */
const commandsOf = (
  { phrases, ambiguous }: Vocabulary,
  sides: readonly string[],
  unavoidable: readonly string[] = []
) =>
  new RegExp(
    `(?<![\\p{L}\\d_])(${[...Object.values(phrases).flat(), ...Object.keys(ambiguous), ...sides]
      .filter((phrase) => !unavoidable.includes(phrase))
      .join('|')})(?![\\p{L}\\d_])`,
    'iu'
  )
const COMMANDS: Patterns = {
  en: commandsOf(vocabularyEn, ['left', 'right', 'both sides']),
  // No Spanish sentence does without these two; alone they only answer a question.
  es: commandsOf(vocabularyEs, ['izquierda', 'derecha', 'ambos lados'], ['no', 'más'])
}

/** The first word of a text that the ears would act on; null where there is none. */
export function commandIn(text: string, language: Language = 'en'): string | null {
  return COMMANDS[language].exec(text)?.[1] ?? null
}

const commandWord: Rule = {
  id: 'command-word',
  weight: 'warning',
  reason: 'Ears that hear the voice say a command could obey it.',
  source: 'Common practice, no source.',
  find: inEachText(({ text, language, path }) => {
    const word = commandIn(text, language)
    return word === null
      ? null
      : { path, what: `"${word}" is a word the ears listen for.`, mend: 'Say it with another word.' }
  })
}

export const HEARING: readonly Rule[] = [tooLongToHear, tooManyFacts, twoActions, conditionAfter, commandWord]
