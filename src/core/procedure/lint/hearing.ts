/** What can be taken in by ear, over a freezer, with full hands. */
import { inUnits } from '../../talk/quantities.ts'
import { vocabularyEn } from '../../talk/vocabulary.en.ts'
import type { Problem } from '../problem.ts'
import type { Rule } from './rule.ts'
import { english, sentencesIn, spokenIn, stepsIn, wordsIn, type PlacedStep, type SpokenText } from './steps-in.ts'

const MOST_WORDS = 20
const MOST_FACTS = 3
const VERBS =
  'add|brush|build|carry|close|count|dip|drain|draw|empty|fill|gather|grease|hang|hook|lay|lift|loosen|mix|mop|open|peel|pour|press|pull|push|put|remove|rinse|roll|rub|scrape|scrub|set|slide|spray|start|stir|swab|take|throw|tighten|turn|unhook|unscrew|wash|wipe|write'
/** "Lift it off and carry it over" is one movement with one thing; "lift it off and tighten the screw" is two. */
const SECOND_ACTION = new RegExp(`^\\S+ (?!and\\b).*\\b(?:and|then) (?:${VERBS}) (?!it\\b|them\\b)\\w`, 'i')
const LATE_CONDITION = /^(?!when\b|if\b|once\b|as soon\b|with\b)[^,]* (?:when|if|once|as soon as) /i

const inEachText = (what: (spoken: SpokenText) => Problem | null): Rule['find'] => {
  return (procedure) => stepsIn(procedure).flatMap((placed) => spokenIn(placed).flatMap((spoken) => what(spoken) ?? []))
}

const inEachHeadline = (what: (headline: string, placed: PlacedStep) => Problem | null): Rule['find'] => {
  return (procedure) => stepsIn(procedure).flatMap((placed) => what(english(placed.step.say), placed) ?? [])
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
  find: inEachHeadline((say, { path }) =>
    SECOND_ACTION.test(say) || sentencesIn(say).length > 1
      ? { path: [...path, 'say'], what: 'Two actions stand in one step.', mend: 'Give each its own step.' }
      : null
  )
}

const conditionAfter: Rule = {
  id: 'condition-after-command',
  weight: 'warning',
  reason: 'Whoever hears the command first begins before the condition comes.',
  source: 'ASD-STE100, rule 5.4: the condition comes first.',
  find: inEachHeadline((say, { path }) =>
    LATE_CONDITION.test(say)
      ? {
          path: [...path, 'say'],
          what: 'The condition comes after the command.',
          mend: 'Begin with it: "When it is dry, ...".'
        }
      : null
  )
}

/** Names of shared places are what the work is about: they do not count. */
const COMMANDS = new RegExp(
  `\\b(${[
    ...Object.values(vocabularyEn.phrases).flat(),
    ...Object.keys(vocabularyEn.ambiguous),
    'left',
    'right',
    'both sides'
  ].join('|')})\\b`,
  'i'
)

/** The first word of a text that the ears would act on; null where there is none. */
export function commandIn(text: string): string | null {
  return COMMANDS.exec(text)?.[1] ?? null
}

const commandWord: Rule = {
  id: 'command-word',
  weight: 'warning',
  reason: 'Ears that hear the voice say a command could obey it.',
  source: 'Common practice, no source.',
  find: inEachText(({ text, path }) => {
    const word = commandIn(text)
    return word === null
      ? null
      : { path, what: `"${word}" is a word the ears listen for.`, mend: 'Say it with another word.' }
  })
}

export const HEARING: readonly Rule[] = [tooLongToHear, tooManyFacts, twoActions, conditionAfter, commandWord]
