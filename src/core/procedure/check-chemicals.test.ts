import { describe, expect, it, test } from 'vitest'
import { withHead } from '../../../tests/helpers/a-procedure.ts'
import { told } from '../../../tests/helpers/faulty-procedure.ts'

const SOLUTIONS = `tools:
  - {id: pail, name: Pail}
solutions:
  - {id: bleach, name: Sanitizer, amount: '1', per: side, chemical: hypochlorite, directions: Mix.}
  - {id: descaler, name: Descaler, amount: '1', per: side, chemical: acid, directions: Mix.}
  - {id: polish, name: Glass polish, amount: '1', per: side, chemical: ammonia, directions: Mix.}
  - {id: soap, name: Soap, amount: '1', per: side, chemical: other, directions: Mix.}`

/** Steps from line 19 on, one a line; then one that uses everything alone, far from the rest. */
function toldOf(...steps: readonly string[]): readonly string[] {
  const rinsed = ['bleach', 'descaler', 'polish'].flatMap((id) => [
    `step: x-rinse-${id}, on: whole machine, rinse: full`,
    `step: x-${id}, on: whole machine, use: [${id}]`
  ])
  const lines = [...steps, ...rinsed].map((step) => `      - {${step}, say: Go., hands: 5 s}`).join('\n')
  return told(withHead(`  - stage: A\n    steps:\n${lines}`, SOLUTIONS))
}

const MEND =
  'Rinse everything that was touched with drinking water between them, and write "rinse: full" on the step that ends the rinse.'
const clash = (line: number, second: string, first: string, where = 'Left', gas = 'chlorine gas') =>
  `${line}: Step "${second}" brings its product onto that of step "${first}" (${where}) without a full rinse between: they give off ${gas}, which can kill. -> ${MEND}`

// Which pairs make gas: Washington State Department of Health, as restated by secondary pages.
describe('two chemicals on one side', () => {
  test('are refused without a rinse between, whichever comes first', () => {
    expect(toldOf('step: a, use: [descaler]', 'step: b, use: [bleach]')).toEqual([clash(20, 'b', 'a')])
    expect(toldOf('step: a, use: [bleach]', 'step: b, use: [descaler]')).toEqual([clash(20, 'b', 'a')])
    expect(toldOf('step: a, use: [polish]', 'step: b, use: [bleach]')).toEqual([
      clash(20, 'b', 'a', 'Left', 'chloramine gas')
    ])
  })

  test('are refused with only a wash between', () => {
    expect(toldOf('step: a, use: [descaler]', 'step: w, use: [soap]', 'step: b, use: [bleach]')).toEqual([
      clash(21, 'b', 'a')
    ])
  })

  test('are allowed across a full rinse', () => {
    expect(toldOf('step: a, use: [descaler]', 'step: r, rinse: full', 'step: b, use: [bleach]')).toEqual([])
  })

  test('are allowed where they make nothing', () => {
    expect(toldOf('step: a, use: [descaler]', 'step: b, use: [soap, polish]', 'step: c, use: [descaler]')).toEqual([])
  })

  test('are refused in one step', () => {
    expect(toldOf('step: a, use: [descaler, bleach]')).toEqual([
      `19: Step "a" brings two products together (Left) without a full rinse between: they give off chlorine gas, which can kill. -> ${MEND}`
    ])
  })
})

describe('where they can meet', () => {
  test('a rinse of the other side does not help', () => {
    expect(toldOf('step: a, use: [descaler]', 'step: r, on: right, rinse: full', 'step: b, use: [bleach]')).toEqual([
      clash(21, 'b', 'a')
    ])
  })

  test('two sides are two vessels', () => {
    expect(toldOf('step: a, on: left, use: [descaler]', 'step: b, on: right, use: [bleach]')).toEqual([])
  })

  test('what is used on the whole machine is on every side and on the bench', () => {
    expect(toldOf('step: a, on: whole machine, use: [descaler]', 'step: b, on: bench, use: [bleach]')).toEqual([
      clash(20, 'b', 'a', 'Bench')
    ])
    expect(toldOf('step: a, on: right, use: [descaler]', 'step: b, on: whole machine, use: [bleach]')).toEqual([
      clash(20, 'b', 'a', 'Right')
    ])
  })

  test('a rinse of the whole machine rinses every side and the bench', () => {
    expect(
      toldOf('step: a, use: [descaler]', 'step: r, on: whole machine, rinse: full', 'step: b, on: left, use: [bleach]')
    ).toEqual([])
  })

  test('a pail carries the first to where the second is', () => {
    const held = 'take: [pail], free: [pail]'
    expect(toldOf(`step: a, on: left, use: [descaler], ${held}`, `step: b, on: bench, use: [bleach], ${held}`)).toEqual(
      [clash(20, 'b', 'a', 'Pail')]
    )
    expect(
      toldOf(
        `step: a, on: left, use: [descaler], ${held}`,
        `step: r, on: left, rinse: full, ${held}`,
        `step: b, on: bench, use: [bleach], ${held}`
      )
    ).toEqual([])
  })

  test('a repeat brings the first one after the second', () => {
    const again = (from: string) => `ask: {question: Is it clean?}, again: {from: ${from}, at most: 3}`
    const steps = ['step: a, use: [descaler]', 'step: r, rinse: full', 'step: b, use: [bleach]']
    expect(toldOf(...steps, `step: look, ${again('r')}`)).toEqual([])
    expect(toldOf(...steps, `step: look, ${again('a')}`)).toEqual([clash(19, 'a', 'b')])
  })

  test('what is done when a longest time is missed counts too', () => {
    const late =
      'wait: {for: contact, at least: 1 min, at most: 2 min, source: Label, late: {say: Once more., redo: a}}'
    expect(toldOf('step: a, use: [descaler]', 'step: r, rinse: full', `step: b, use: [bleach], ${late}`)).toEqual([
      clash(19, 'a', 'b')
    ])
  })
})

describe('what is written about a chemical', () => {
  const head = (solution: string, step = '') =>
    told(withHead(`  - {stage: A, steps: [{step: a, say: Go., hands: 5 s${step}}]}`, `solutions:\n  - {${solution}}`))
  const solution = (name: string, chemical: string) =>
    `id: one, name: ${name}, amount: '1', per: side, chemical: ${chemical}, directions: Mix.`

  it('must be used somewhere, when it could make gas', () => {
    expect(head(solution('Cleaner', 'acid'))).toEqual([
      '10: No step says that it uses "one", so nobody can check what it meets. -> Write use: [one] on each step that brings it onto a side, a part or into a sink.'
    ])
    expect(head(solution('Cleaner', 'other'))).toEqual([])
  })

  test.each([
    ['Chlorine sanitizer', 'other', 'hypochlorite'],
    ['Household bleach', 'acid', 'hypochlorite'],
    ['White vinegar', 'other', 'acid'],
    ['Delimer', 'hypochlorite', 'acid'],
    ['Glass cleaner with ammonia', 'other', 'ammonia']
  ])('%s is no %s', (name, chemical, family) => {
    expect(head(solution(name, chemical), ', use: [one]')).toEqual([
      `10: The name of "one" speaks of ${family}, and its chemical is ${chemical}. -> Write chemical: ${family}, or a name that says what it is.`
    ])
  })

  test.each(['Chlorine-free cleaner', 'Cleaner without acid', 'Quaternary ammonium sanitizer', 'Acid-free soap'])(
    '%s is other',
    (name) => {
      expect(head(solution(name, 'other'), ', use: [one]')).toEqual([])
    }
  )

  it('is one of four families', () => {
    const [first] = head(solution('Cleaner', 'lye'))
    expect(first).toBe(
      '10: Solution 1: "chemical" is "lye", which cannot be used. -> Write one of: hypochlorite, acid, ammonia, other.'
    )
  })

  test('a step names solutions that there are, once each, and does not rinse too', () => {
    expect(head(solution('Cleaner', 'other'), ', use: [two]')).toEqual([
      '12: Step "a" names "two", which is not in the list of solutions. -> Add it to solutions, or check the spelling.'
    ])
    expect(head(solution('Cleaner', 'other'), ', use: [one, one]')).toEqual([
      '12: Step "a" names "one" twice. -> Name it once.'
    ])
    expect(head(solution('Cleaner', 'other'), ', use: [one], rinse: full')).toEqual([
      '12: Step "a" has more than one of use and rinse. -> Give each its own step.'
    ])
  })
})
