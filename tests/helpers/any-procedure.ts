/** Random procedures that pass every check, for property tests. */
import fc from 'fast-check'
import { checkProcedure } from '../../src/core/procedure/check-procedure.ts'
import type { Check, Procedure, Step, Text } from '../../src/core/procedure/procedure.ts'

const en = (words: string): Text => ({ en: words })

interface Sketch {
  readonly where: number
  readonly hands: number
  readonly wait: number | null
  readonly most: number | null
  readonly check: number
  readonly caution: boolean
  readonly confirm: boolean
  readonly tool: number
  readonly back: number
}

const anySketch: fc.Arbitrary<Sketch> = fc.record({
  where: fc.nat(9),
  hands: fc.integer({ min: 5, max: 120 }),
  wait: fc.option(fc.integer({ min: 1, max: 900 }), { freq: 2 }),
  most: fc.option(fc.integer({ min: 0, max: 900 }), { freq: 2 }),
  check: fc.nat(9),
  caution: fc.boolean(),
  confirm: fc.nat(3).map((n) => n === 0),
  tool: fc.nat(5),
  back: fc.nat(3)
})

const CHECKS: readonly Check[] = [
  { kind: 'yes-no', ask: en('Is it good?'), good: 'yes', corrections: [en('Mend it.')] },
  { kind: 'yes-no', ask: en('Does it leak?'), good: 'no', corrections: [en('Mend it.')] },
  {
    kind: 'reading',
    ask: en('What does it read?'),
    reading: 'strength',
    unit: '[ppm]',
    min: 100,
    max: 200,
    source: en('Label'),
    corrections: [en('Remix.')],
    of: 'chlorine',
    heldTo: [{ title: 'Rules', source: 'Label', rows: [[[{ unit: '[ppm]', min: null, max: 140 }]]] }]
  },
  { kind: 'count', ask: en('How many?'), parts: ['seal'], corrections: [en('Find it.')] }
]

function stepFrom(sketch: Sketch, index: number, sides: readonly string[], earlier: readonly Step[]): Step {
  const on: Step['on'] =
    sketch.where === 0
      ? { kind: 'machine' }
      : sketch.where === 1
        ? { kind: 'bench' }
        : sketch.where === 2
          ? { kind: 'sides', sides: sides.slice(0, 1) }
          : { kind: 'sides', sides }
  const check = CHECKS[sketch.check] ?? null
  const from = earlier.at(-1 - sketch.back)
  const repeats = check?.kind === 'yes-no' && sketch.back > 0 && from !== undefined
  const late = sketch.wait !== null && sketch.most !== null && sketch.back === 0
  const id = `step-${index}`
  return {
    id,
    on,
    say: en(`Do ${id}.`),
    more: null,
    why: null,
    handsSeconds: sketch.hands,
    cautions: sketch.caution
      ? [{ signal: 'warning', hazard: en('Hot.'), consequence: en('Burns.'), avoid: en('Keep off.') }]
      : [],
    confirm: sketch.confirm && check === null ? en('power is off') : null,
    wait:
      sketch.wait === null
        ? null
        : {
            kind: 'contact',
            minSeconds: sketch.wait,
            maxSeconds: sketch.most === null ? null : sketch.wait + sketch.most,
            source: en('Label'),
            late: late ? { say: en('Again.'), redo: id } : null
          },
    check,
    repeat: repeats ? { from: from.id, atLeast: 1 + (sketch.hands % 2), atMost: 2 + (sketch.hands % 3) } : null,
    takes: sketch.tool === 3 ? ['brush'] : [],
    frees: sketch.tool === 3 ? ['brush'] : []
  }
}

/** Holds the pail from one step to a later one of the same lanes, when no whole-machine step lies between. */
function holdingPail(steps: readonly Step[], first: number, length: number): readonly Step[] {
  const start = first % steps.length
  const places = steps.map((step) => JSON.stringify(step.on))
  const barrier = steps.findIndex((step, index) => index >= start && step.on.kind === 'machine')
  const candidates = steps.flatMap((_, index) =>
    index >= start && (barrier < 0 || index < barrier) && places[index] === places[start] ? [index] : []
  )
  const end = candidates[Math.min(length, candidates.length - 1)]
  if (end === undefined) return steps
  return steps.map((step, index) => ({
    ...step,
    takes: index === start ? [...step.takes, 'pail'] : step.takes,
    frees: index === end ? [...step.frees, 'pail'] : step.frees
  }))
}

/** Takes out what the checks refuse (an unreachable repeat, a tool never freed) until the procedure is valid. */
function mended(procedure: Procedure): Procedure {
  const problems = checkProcedure(procedure)
  if (problems.length === 0) return procedure
  const stages = procedure.stages.map((stage, stageIndex) => ({
    ...stage,
    steps: stage.steps.map((step, stepIndex): Step => {
      const keys = problems
        .filter(({ path }) => path[1] === stageIndex && path[3] === stepIndex)
        .map(({ path }) => path[4])
      if (keys.length === 0) return step
      return {
        ...step,
        repeat: null,
        wait: step.wait && { ...step.wait, late: null },
        takes: step.takes.length > 0 && keys.some((key) => key !== 'again') ? [] : step.takes,
        frees: keys.includes('free') ? [] : step.frees
      }
    })
  }))
  const next = { ...procedure, stages }
  // What cannot be mended step by step loses all its tools.
  return checkProcedure(next).length < problems.length
    ? mended(next)
    : {
        ...next,
        stages: next.stages.map((stage) => ({
          ...stage,
          steps: stage.steps.map((step) => ({ ...step, takes: [], frees: [], repeat: null }))
        }))
      }
}

export const anyProcedure: fc.Arbitrary<Procedure> = fc
  .record({
    sketches: fc.array(anySketch, { minLength: 1, maxLength: 14 }),
    sideCount: fc.integer({ min: 1, max: 4 }),
    pails: fc.integer({ min: 1, max: 2 }),
    start: fc.nat(20),
    length: fc.nat(6)
  })
  .map(({ sketches, sideCount, pails, start, length }) => {
    const sides = ['left', 'right', 'third', 'fourth'].slice(0, sideCount)
    const steps: Step[] = []
    for (const [index, sketch] of sketches.entries()) steps.push(stepFrom(sketch, index, sides, steps))
    return mended({
      id: 'random',
      title: en('Random'),
      summary: en('Random'),
      languages: ['en'],
      machine: en('Random machine'),
      sides: sides.map((id) => ({ id, name: en(id) })),
      tools: [
        { id: 'pail', name: en('Pail'), count: pails },
        { id: 'brush', name: en('Brush'), count: 1 }
      ],
      parts: [{ id: 'seal', name: en('Seal'), per: 'side', count: 2, care: 'grease', wear: { days: 90, runs: null } }],
      supplies: [],
      solutions: [],
      stages: [{ title: en('All'), steps: holdingPail(steps, start, length) }]
    })
  })
  .filter((procedure) => checkProcedure(procedure).length === 0)

/** The same procedures with no longest times: an order that keeps those is for a planner to find. */
export const anyProcedureWithoutMaxima: fc.Arbitrary<Procedure> = anyProcedure.map((procedure) => ({
  ...procedure,
  stages: procedure.stages.map((stage) => ({
    ...stage,
    steps: stage.steps.map((step) => ({ ...step, wait: step.wait && { ...step.wait, maxSeconds: null, late: null } }))
  }))
}))
