import { describe, expect, it, test } from 'vitest'
import { RULE_SETS } from '../../../../tests/sanitizer/shipped-rule-sets.ts'
import { aProcedure, withHead } from '../../../../tests/helpers/a-procedure.ts'
import { choose, NO_RULES, type ShopRules } from '../../sanitizer/shop-rules.ts'
import { lint, rulesFor } from './lint.ts'

const HEAD = `tools: [{id: pail, name: Pail}]
parts:
  - {id: shaft, name: Drive shaft, per: side, count: 1, care: dry}
  - {id: seal, name: Shaft seal, per: side, count: 1, care: grease}`
const SOLUTIONS = {
  acid: '{id: acid, name: Descaler, amount: 1 L, per: side, directions: By its label., chemical: acid}',
  cleaner: '{id: cleaner, name: Cleaner, amount: 1 L, per: side, directions: By its label., chemical: other}',
  sanitizer:
    '{id: sanitizer, name: Sanitizer, amount: 1 L, per: side, directions: By its label., chemical: hypochlorite}'
}
const BURNS = 'cautions: [{signal: caution, hazard: Chemical., consequence: It can burn skin., avoid: Wear gloves.}]'
const CUTS =
  'cautions: [{signal: caution, hazard: Sharp blade., consequence: It can cut a finger., avoid: Hold the frame.}]'
const TURNS =
  'cautions: [{signal: warning, hazard: The beater turns., consequence: It can break a hand., avoid: Keep out.}]'
const OFF = '{step: off, on: whole machine, say: Try each control., hands: 10 s, confirm: power is off}'
const ON = '{step: on, on: whole machine, say: Turn the power switch on., hands: 10 s}'
const SOAK = (rest: string) => `{step: soak, say: Pour it in., hands: 10 s, ${rest}}`
const say = (words: string, rest = '') => `{step: it, say: "${words}", hands: 10 s${rest}}`

const shop = (() => {
  const chosen = choose({ rules: 'us-food-code', labels: [] }, RULE_SETS)
  if (chosen.kind === 'faulty') throw new Error(chosen.what)
  return chosen.shop
})()

function found(steps: readonly string[], rules: ShopRules = NO_RULES): readonly string[] {
  const used = Object.entries(SOLUTIONS).filter(([id]) => steps.some((step) => step.includes(`use: [${id}]`)))
  const solutions = used.length === 0 ? '' : `\nsolutions: [${used.map(([, solution]) => solution).join(', ')}]`
  const stages = `  - stage: A\n    steps:\n${steps.map((step) => `      - ${step}\n`).join('')}`
  return lint(aProcedure(withHead(stages, `${HEAD}${solutions}`)), rules).map(({ rule }) => rule.id)
}

/** Rule, wrong, and right: the nearest that is meant well. */
const EXAMPLES: readonly (readonly [rule: string, wrong: readonly string[], right: readonly string[]])[] = [
  ['hands-in-under-power', [say('Pull the beater out.')], [OFF, say('Pull the beater out.')]],
  ['hands-in-under-power', [OFF, ON, say('Brush the rear bearing.')], [OFF, say('Brush the rear bearing.'), ON]],
  ['hands-in-under-power', [say('Lift the spiral out.', ', on: left')], [say('Lift the spiral out.', ', on: bench')]],
  [
    'moving-part-by-everyday-word',
    [say('Turn the control to wash.', `, ${TURNS}`)],
    [say('Turn the control to wash.', `, ${TURNS}, confirm: hands are clear`)]
  ],
  ['chemical-without-caution', [SOAK('use: [sanitizer]')], [SOAK(`use: [sanitizer], ${BURNS}`)]],
  [
    'chemical-without-caution',
    [say('Pour it in.', ', use: [sanitizer]'), `{step: late, say: Wait a little., hands: 10 s, ${BURNS}}`],
    [`{step: early, say: Put the gloves on., hands: 10 s, ${BURNS}}`, say('Pour it in.', ', use: [sanitizer]')]
  ],
  ['hot-water-without-caution', [say('Fill it with hot water.')], [say('Fill it with hot water.', `, ${BURNS}`)]],
  ['blade-without-caution', [OFF, say('Wash the blades.')], [OFF, say('Wash the blades.', `, ${CUTS}`)]],
  [
    'cleaned-after-sanitizing',
    [`{step: one, say: Pour it in., hands: 10 s, use: [sanitizer], ${BURNS}}`, say('Scrub it.', ', use: [cleaner]')],
    [say('Scrub it.', ', use: [cleaner]'), `{step: two, say: Pour it in., hands: 10 s, use: [sanitizer], ${BURNS}}`]
  ],
  [
    'rinsed-after-sanitizing',
    [`{step: one, say: Pour it in., hands: 10 s, use: [sanitizer], ${BURNS}}`, say('Rinse it with water.')],
    [say('Rinse it with water.'), `{step: two, say: Pour it in., hands: 10 s, use: [sanitizer], ${BURNS}}`]
  ],
  ['dry-part-greased', [say('Grease the drive shaft.')], [say('Grease the shaft seal.')]],
  ['dry-part-greased', [say('Grease seal and drive shaft.')], [say('Wipe the drive shaft free of grease.')]],
  [
    'no-longest-time',
    [SOAK('wait: {for: agitation, at least: 1 min, source: Label}')],
    [SOAK('wait: {for: agitation, at least: 1 min, at most: 5 min, source: Label}'), say('Draw it.')]
  ],
  [
    'no-longest-time',
    [SOAK(`use: [acid], ${BURNS}, wait: {for: contact, at least: 1 min, source: Label}`)],
    [SOAK(`use: [cleaner], wait: {for: contact, at least: 1 min, source: Label}`)]
  ],
  [
    'limit-cannot-be-kept',
    [
      SOAK('wait: {for: soak, at least: 1 min, at most: 1 min, source: Label}'),
      '{step: all, on: whole machine, say: Look., hands: 10 s}'
    ],
    [
      SOAK('wait: {for: soak, at least: 1 min, at most: 5 min, source: Label}'),
      '{step: all, on: whole machine, say: Look., hands: 10 s}'
    ]
  ],
  [
    'wait-below-rules',
    [SOAK(`use: [sanitizer], ${BURNS}, wait: {for: contact, of: chlorine, at least: 5 s, source: Label}`)],
    [SOAK(`use: [sanitizer], ${BURNS}, wait: {for: contact, of: chlorine, at least: 1 min, source: Label}`)]
  ],
  [
    'too-long-to-hear',
    [
      say(
        'Rinse.',
        ', more: Rinse the whole of the inside and the whole of the outside of it with a lot of water that is warm but by no means hot.'
      )
    ],
    [say('Rinse.', ', more: Rinse inside and outside. Take a lot of lukewarm water.')]
  ],
  ['too-many-facts', [say('Rinse.', ', why: One. Two. Three. Four.')], [say('Rinse.', ', why: One. Two. Three.')]],
  [
    'two-actions',
    [say('Loosen the tray screw and lift the tray.')],
    [say('Loosen the tray screw.'), '{step: b, say: Lift the tray., hands: 10 s}']
  ],
  ['two-actions', [say('Drain the sink. Wash it.')], [say('Drain and wash the sink.')]],
  ['condition-after-command', [say('Open the spout when it is cold.')], [say('When it is cold, open the spout.')]],
  ['command-word', [say('Put the left one back.')], [say('Put the first one in.')]]
]

describe('each rule finds what is wrong, and leaves what is right alone', () => {
  it.each(EXAMPLES)('%s', (rule, wrong, right) => {
    expect(found(wrong, shop)).toContain(rule)
    expect(found(right, shop)).not.toContain(rule)
  })
})

test('every rule has an example, a reason and a source', () => {
  const rules = rulesFor(NO_RULES)
  expect(new Set(EXAMPLES.map(([rule]) => rule))).toEqual(new Set(rules.map(({ id }) => id)))
  expect(rules.filter(({ reason, source }) => reason.length < 10 || source.length < 10)).toEqual([])
  expect(new Set(rules.map(({ id }) => id)).size).toBe(rules.length)
})
