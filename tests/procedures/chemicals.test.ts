/** Acid, chlorine and the rinses between them, in the shipped procedures; and what a rinse that is left out does. */
import { describe, expect, it } from 'vitest'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import { SHIPPED, SHIPPED_FILES, shipped, stepsOf } from './shipped-files.ts'

const descale = SHIPPED_FILES.find(({ name }) => name === 'twin-freezer-descale.yaml')?.text ?? ''
const lines = descale.split('\n')

/** The descale without the rinse of one step, or of all of them. */
function without(...ids: readonly string[]): string {
  let step = ''
  return lines
    .filter((line) => {
      step = /^ {6}- step: (\S+)/.exec(line)?.[1] ?? step
      return line.trim() !== 'rinse: full' || !ids.includes(step)
    })
    .join('\n')
}

describe('the shipped descale', () => {
  const rinses = stepsOf(shipped('twin-freezer-descale'))
    .filter(({ chemistry }) => chemistry?.kind === 'full-rinse')
    .map(({ id }) => id)

  it('rinses sides, parts and sinks before the acid and after it, each time with a strip', () => {
    expect(rinses).toEqual(['before-chlorine', 'parts-before-chlorine', 'after-ph', 'parts-after-ph', 'sinks-ph'])
    const proofs = stepsOf(shipped('twin-freezer-descale')).filter(({ id }) => rinses.includes(id))
    expect(proofs.map(({ check }) => check?.kind)).toEqual(rinses.map(() => 'reading'))
  })

  it('is refused without the rinses between the acid and the chlorine, at the step that brings them together', () => {
    const read = readProcedure(without('after-ph', 'parts-after-ph', 'sinks-ph'))
    const problems = read.kind === 'faulty' ? read.problems : []
    const use = lines.findIndex((line) => line.includes('use: [parts-sanitizer]')) + 1
    expect(problems.length).toBeGreaterThan(0)
    // The three lines that were taken out stand before it.
    expect(problems[0]?.line).toBe(use - 3)
    for (const { what, mend } of problems) {
      expect(what).toMatch(/chlorine gas, which can kill/)
      expect(mend).toMatch(/rinse: full/)
    }
  })

  it('is still whole where one rinse of the same place stands for another', () => {
    expect(readProcedure(without('after-ph')).kind).toBe('read')
    expect(readProcedure(without('sinks-ph')).kind).toBe('faulty')
  })
})

describe.each(SHIPPED)('$name', ({ procedure }) => {
  it('says of each mixing and pouring step what it uses', () => {
    const pouring = stepsOf(procedure).filter(
      ({ say, chemistry }) =>
        /^(?!Pour away)(?:Mix|Pour|Fill|Lay|Brush|Wipe|Swab)\b.*\b(?:sanitizer|descaler|cleaner|detergent)\b/.test(
          say['en'] ?? ''
        ) && chemistry?.kind !== 'use'
    )
    expect(pouring.map(({ id }) => id)).toEqual([])
  })

  it('uses every solution that it lists, except for plain water', () => {
    const used = stepsOf(procedure).flatMap(({ chemistry }) => (chemistry?.kind === 'use' ? chemistry.solutions : []))
    const idle = procedure.solutions.filter(({ id, name }) => !used.includes(id) && !/water/.test(name['en'] ?? ''))
    expect(idle).toEqual([])
  })
})
