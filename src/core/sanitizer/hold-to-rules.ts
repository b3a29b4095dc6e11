/**
 * Puts the limits of a shop's rules into a procedure as it is published: into its readings, and into contact times that
 * they ask to be longer. The version that a run pins then holds them too, whatever the shop chooses later.
 */
import { pathOfStep } from '../procedure/path-of-step.ts'
import type { Problem } from '../procedure/problem.ts'
import type { Check, HeldTo, Procedure, Step, Text, Wait } from '../procedure/procedure.ts'
import { applicableLimits, type AppliedLimit } from './applicable-limits.ts'
import { contactInAnyCase } from './contact-needed.ts'
import { boundsOf, noneAllowed } from './reading-bounds.ts'
import { SUBJECTS, type Subject } from './rule-set.ts'
import { labelFor, type ShopRules } from './shop-rules.ts'
import { isLanguage, type Language } from '../talk/languages.ts'
import { sanitizerWordsEn, type SanitizerWords } from './words.en.ts'
import { sanitizerWordsEs } from './words.es.ts'

const WORDS: Readonly<Record<Language, SanitizerWords>> = { en: sanitizerWordsEn, es: sanitizerWordsEs }

type ReadingCheck = Extract<Check, { kind: 'reading' }>

/** In each language of the procedure. */
type Written = (write: (words: SanitizerWords) => string) => Text

/** Nothing is ever made easier: the author's own limits and times hold beside the rules. */
export function holdToRules(procedure: Procedure, shop: ShopRules): Procedure {
  if (shop.ruleSets.length === 0) return procedure
  const text: Written = (write) =>
    Object.fromEntries(
      procedure.languages.map((language) => [language, write(isLanguage(language) ? WORDS[language] : WORDS.en)])
    )
  const step = (one: Step): Step => ({
    ...one,
    check: one.check?.kind === 'reading' ? heldReading(one.check, shop) : one.check,
    wait: one.wait && lengthened(one.wait, shop, text)
  })
  const stages = procedure.stages.map((stage) => ({ ...stage, steps: stage.steps.map(step) }))
  return { ...procedure, stages }
}

/** What the rules make impossible; told to the author, since the run would stop there for ever. */
export function checkHeld(procedure: Procedure): Problem[] {
  return procedure.stages.flatMap(({ steps }) =>
    steps.flatMap(({ id, check, wait }) => [
      ...(check?.kind === 'reading' ? impossibleReading(check, pathOfStep(procedure, id, 'read')) : []),
      ...(wait?.of !== undefined && wait.maxSeconds !== null && wait.maxSeconds < wait.minSeconds
        ? [
            {
              path: pathOfStep(procedure, id, 'wait', 'at most'),
              what: `The rules of this shop ask for ${wait.minSeconds} s, which is more than the longest time of step "${id}".`,
              mend: 'Make "at most" longer, or choose a product that is quicker.'
            }
          ]
        : [])
    ])
  )
}

function subjectOf({ of }: { readonly of?: string }): Subject | undefined {
  return SUBJECTS.find((subject) => subject === of)
}

function heldReading(check: ReadingCheck, shop: ShopRules): ReadingCheck {
  const subject = subjectOf(check)
  if (subject === undefined) return check
  const { limits } = applicableLimits(subject, shop.ruleSets, labelFor(subject, shop))
  // The time is kept by the wait that follows.
  const heldTo = limits.filter(({ limit }) => limit.aspect !== 'contact').flatMap(heldToLimit)
  return heldTo.length === 0 ? check : { ...check, heldTo }
}

function heldToLimit({ ruleSet, limit }: AppliedLimit): HeldTo[] {
  const rows = limit.rows.map((row) => row.map(boundsOf).filter(({ length }) => length > 0))
  return rows.some((row) => row.length === 0)
    ? []
    : [{ title: ruleSet.title, source: sanitizerWordsEn.source(limit), rows }]
}

function lengthened(wait: Wait, shop: ShopRules, text: Written): Wait {
  const subject = subjectOf(wait)
  const needed = subject && contactInAnyCase(subject, shop.ruleSets, labelFor(subject, shop))
  if (!needed || needed.seconds <= wait.minSeconds) return wait
  const { limit, ruleSet } = needed.applied
  return { ...wait, minSeconds: needed.seconds, source: text((words) => `${ruleSet.title}: ${words.source(limit)}`) }
}

function impossibleReading({ heldTo = [], unit, min, max }: ReadingCheck, path: Problem['path']): Problem[] {
  return heldTo
    .filter(({ rows }) => noneAllowed(rows, { unit, min, max }))
    .map(({ title, source }) => ({
      path,
      what: `No reading that this step calls good is allowed by ${title}: ${source}.`,
      mend: 'Change the limits of the step, or choose the rules and the label that hold here.'
    }))
}
