/** What a single step can get wrong, whatever its lane does before and after it. */
import { isEveryday } from '../talk/everyday.ts'
import { LANGUAGES, type Language } from '../talk/languages.ts'
import { vocabularyEn, type Vocabulary } from '../talk/vocabulary.en.ts'
import { vocabularyEs } from '../talk/vocabulary.es.ts'
import type { Problem } from './problem.ts'
import type { Procedure, Step } from './procedure.ts'

type Path = readonly (string | number)[]

export function checkStep(procedure: Procedure, step: Step, path: Path): Problem[] {
  return [
    ...unknownSides(procedure, step, path),
    ...answerRules(step, path),
    ...confirmingPhrase(step, path),
    ...handsTime(step, path),
    ...waitLimits(step, path),
    ...readingLimits(step, path),
    ...unknownNames(procedure, step, path),
    ...doubledNames(step, path)
  ]
}

function unknownSides(procedure: Procedure, step: Step, path: Path): Problem[] {
  if (step.on.kind !== 'sides') return []
  const known = new Set(procedure.sides.map((side) => side.id))
  return step.on.sides
    .filter((side) => !known.has(side))
    .map((side) => ({
      path: [...path, 'on'],
      what: `Step "${step.id}" is on "${side}", which is no side of this machine.`,
      mend: `Use each side, bench, whole machine, or one of: ${[...known].join(', ')}.`
    }))
}

function answerRules(step: Step, path: Path): Problem[] {
  const problems: Problem[] = []
  if (step.repeat && step.check?.kind !== 'yes-no') {
    problems.push({
      path: [...path, 'again'],
      what: `Step "${step.id}" repeats but asks nothing.`,
      mend: 'Add an ask: with the question that ends the repeating.'
    })
  }
  if (step.repeat && step.repeat.atLeast > step.repeat.atMost) {
    problems.push({
      path: [...path, 'again', 'at least'],
      what: `Step "${step.id}" must repeat more often than it may.`,
      mend: 'Make "at most" as large as "at least", or larger.'
    })
  }
  if (step.check?.kind === 'yes-no' && !step.repeat && step.check.corrections.length === 0) {
    problems.push({
      path: [...path, 'ask'],
      what: `Step "${step.id}" asks a question but says nothing about a bad answer.`,
      mend: 'Add "if not" with what to do, or "again" to go back and repeat.'
    })
  }
  if (step.confirm && step.check) {
    problems.push({
      path: [...path, 'confirm'],
      what: `Step "${step.id}" has both a confirming phrase and a check.`,
      mend: 'Put the check in a step of its own after it.'
    })
  }
  return problems
}

const VOCABULARIES: Readonly<Record<Language, Vocabulary>> = { en: vocabularyEn, es: vocabularyEs }

/** A phrase that guards moving parts must not be a word that people say all day. */
function confirmingPhrase(step: Step, path: Path): Problem[] {
  const phrase = LANGUAGES.map((language) => {
    const written = step.confirm?.[language]
    return written !== undefined && isEveryday(written, VOCABULARIES[language]) ? written : undefined
  }).find((everyday) => everyday !== undefined)
  if (phrase === undefined) return []
  return [
    {
      path: [...path, 'confirm'],
      what: `The confirming phrase of step "${step.id}" is "${phrase}", which is said at other steps too.`,
      mend: 'Use two words or more that say what makes it safe, such as power is off.'
    }
  ]
}

const LONGEST_HANDS_SECONDS = 8 * 3600
const LONGEST_WAIT_SECONDS = 7 * 24 * 3600

function handsTime(step: Step, path: Path): Problem[] {
  const at = [...path, 'hands']
  if (step.handsSeconds <= 0) {
    return [
      {
        path: at,
        what: `Step "${step.id}" gives no time for the hands.`,
        mend: 'Say about how long it takes, such as 10 s.'
      }
    ]
  }
  if (step.handsSeconds <= LONGEST_HANDS_SECONDS) return []
  return [
    {
      path: at,
      what: `Step "${step.id}" keeps the hands busy for more than 8 hours.`,
      mend: 'Check the number and its unit.'
    }
  ]
}

function waitLimits(step: Step, path: Path): Problem[] {
  const wait = step.wait
  if (!wait) return []
  const problems: Problem[] = []
  if (wait.minSeconds <= 0) {
    problems.push({
      path: [...path, 'wait', 'at least'],
      what: `The wait of step "${step.id}" has no length.`,
      mend: 'Give it a time above zero, or take the wait out.'
    })
  }
  if (wait.maxSeconds !== null && wait.maxSeconds < wait.minSeconds) {
    problems.push({
      path: [...path, 'wait', 'at most'],
      what: `The longest wait of step "${step.id}" is shorter than its shortest.`,
      mend: 'Make "at most" the longer one.'
    })
  }
  if (Math.max(wait.minSeconds, wait.maxSeconds ?? 0) > LONGEST_WAIT_SECONDS) {
    problems.push({
      path: [...path, 'wait'],
      what: `The wait of step "${step.id}" is longer than a week.`,
      mend: 'Check the numbers and their units.'
    })
  }
  if (wait.late && wait.maxSeconds === null) {
    problems.push({
      path: [...path, 'wait', 'late'],
      what: `Step "${step.id}" says what to do when late, but has no longest time.`,
      mend: 'Add "at most".'
    })
  }
  return problems
}

function readingLimits(step: Step, path: Path): Problem[] {
  const check = step.check
  if (check?.kind !== 'reading') return []
  const fits = { strength: ['[ppm]'], temperature: ['Cel', '[degF]'], ph: ['[pH]'] }[check.reading]
  const problems: Problem[] = []
  if (!fits.includes(check.unit)) {
    problems.push({
      path: [...path, 'read', 'unit'],
      what: `Step "${step.id}" reads a ${check.reading === 'ph' ? 'pH' : check.reading} in a unit that does not fit.`,
      mend: 'Use ppm for strength, C or F for temperature, pH for ph.'
    })
  }
  if ([check.min, check.max].some((limit) => limit !== null && !Number.isFinite(limit))) {
    problems.push({
      path: [...path, 'read'],
      what: `Step "${step.id}" has a limit that is no number.`,
      mend: 'Write an ordinary number, or leave that limit out.'
    })
  }
  if (check.min === null && check.max === null) {
    problems.push({
      path: [...path, 'read'],
      what: `Step "${step.id}" takes a reading but gives no limit.`,
      mend: 'Add "at least", "at most" or both.'
    })
  }
  if (check.min !== null && check.max !== null && check.min > check.max) {
    problems.push({
      path: [...path, 'read', 'at most'],
      what: `Step "${step.id}" allows no reading: its lowest is above its highest.`,
      mend: 'Swap or mend the two limits.'
    })
  }
  return problems
}

/** The lists of names in a step, each with the key it stands under. */
function namesIn(step: Step): readonly { readonly path: readonly string[]; readonly names: readonly string[] }[] {
  return [
    { path: ['on'], names: step.on.kind === 'sides' ? step.on.sides : [] },
    { path: ['take'], names: step.takes },
    { path: ['free'], names: step.frees },
    { path: ['count', 'parts'], names: step.check?.kind === 'count' ? step.check.parts : [] },
    { path: ['use'], names: step.chemistry?.kind === 'use' ? step.chemistry.solutions : [] }
  ]
}

/** Where the names of a key are declared. */
const DECLARED_IN = { take: 'tools', free: 'tools', count: 'parts', use: 'solutions' } as const

function unknownNames(procedure: Procedure, step: Step, path: Path): Problem[] {
  return namesIn(step).flatMap(({ path: [key = '', ...rest], names }) => {
    if (!isDeclared(key)) return []
    const list = DECLARED_IN[key]
    return names
      .filter((name) => procedure[list].every(({ id }) => id !== name))
      .map((name) => ({
        path: [...path, key, ...rest],
        what: `Step "${step.id}" names "${name}", which is not in the list of ${list}.`,
        mend: `Add it to ${list}, or check the spelling.`
      }))
  })
}

function isDeclared(key: string): key is keyof typeof DECLARED_IN {
  return Object.hasOwn(DECLARED_IN, key)
}

function doubledNames(step: Step, path: Path): Problem[] {
  return namesIn(step).flatMap(({ path: key, names }) =>
    names
      .filter((name, index) => names.indexOf(name) < index)
      .map((name) => ({
        path: [...path, ...key],
        what: `Step "${step.id}" names "${name}" twice.`,
        mend: 'Name it once.'
      }))
  )
}
