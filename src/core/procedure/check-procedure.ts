/** What a well-shaped procedure can still get wrong. Each rule gives a problem with its place in the author's file. */
import { checkLanes } from './check-lanes.ts'
import type { Problem } from './problem.ts'
import { BENCH, MACHINE, type Procedure, type Step } from './procedure.ts'
import { missingWords } from './missing-words.ts'

export function checkProcedure(procedure: Procedure): Problem[] {
  return [
    ...repeatedIds(procedure),
    ...sideNames(procedure),
    ...eachStep(procedure, (step, path) => [
      ...unknownSides(procedure, step, path),
      ...oneCheckEach(step, path),
      ...handsTime(step, path),
      ...waitLimits(step, path),
      ...readingLimits(step, path),
      ...unknownNames(procedure, step, path)
    ]),
    ...checkLanes(procedure),
    ...missingWords(procedure)
  ]
}

type Path = readonly (string | number)[]

function eachStep(procedure: Procedure, check: (step: Step, path: Path) => Problem[]): Problem[] {
  return procedure.stages.flatMap((stage, stageIndex) =>
    stage.steps.flatMap((step, stepIndex) => check(step, ['stages', stageIndex, 'steps', stepIndex]))
  )
}

function repeatedIds(procedure: Procedure): Problem[] {
  const problems: Problem[] = []
  const lists = { sides: procedure.sides, tools: procedure.tools, parts: procedure.parts, supplies: procedure.supplies, solutions: procedure.solutions }
  for (const [list, things] of Object.entries(lists)) {
    const seen = new Set<string>()
    things.forEach((thing, index) => {
      if (seen.has(thing.id)) problems.push(twice(thing.id, [list, index, 'id']))
      seen.add(thing.id)
    })
  }
  const steps = new Set<string>()
  problems.push(
    ...eachStep(procedure, (step, path) => {
      if (steps.has(step.id)) return [twice(step.id, [...path, 'step'])]
      steps.add(step.id)
      return []
    })
  )
  return problems
}

function twice(id: string, path: Path): Problem {
  return { path, what: `The id "${id}" is used twice.`, mend: 'Give one of them another id.' }
}

function sideNames(procedure: Procedure): Problem[] {
  return procedure.sides.flatMap((side, index) =>
    side.id === BENCH || side.id === MACHINE
      ? [{ path: ['sides', index, 'id'], what: `"${side.id}" cannot be the id of a side: it is the name of a shared place.`, mend: 'Choose another id.' }]
      : []
  )
}

function unknownSides(procedure: Procedure, step: Step, path: Path): Problem[] {
  if (step.on.kind !== 'sides') return []
  const known = new Set(procedure.sides.map((side) => side.id))
  const unknown = step.on.sides.filter((side) => !known.has(side))
  const doubled = new Set(step.on.sides).size < step.on.sides.length
  return [
    ...unknown.map((side) => ({
      path: [...path, 'on'],
      what: `Step "${step.id}" is on "${side}", which is no side of this machine.`,
      mend: `Use each side, bench, whole machine, or one of: ${[...known].join(', ')}.`
    })),
    ...(doubled ? [{ path: [...path, 'on'], what: `Step "${step.id}" names a side twice.`, mend: 'Name each side once.' }] : [])
  ]
}

function oneCheckEach(step: Step, path: Path): Problem[] {
  const problems: Problem[] = []
  if (step.repeat && step.check?.kind !== 'yes-no') {
    problems.push({ path: [...path, 'again'], what: `Step "${step.id}" repeats but asks nothing.`, mend: 'Add an ask: with the question that ends the repeating.' })
  }
  if (step.repeat && step.repeat.atLeast > step.repeat.atMost) {
    problems.push({ path: [...path, 'again', 'at least'], what: `Step "${step.id}" must repeat more often than it may.`, mend: 'Make "at most" as large as "at least", or larger.' })
  }
  if (step.check?.kind === 'yes-no' && !step.repeat && step.check.corrections.length === 0) {
    problems.push({ path: [...path, 'ask'], what: `Step "${step.id}" asks a question but says nothing about a bad answer.`, mend: 'Add "if not" with what to do, or "again" to go back and repeat.' })
  }
  if (step.confirm && step.check) {
    problems.push({ path: [...path, 'confirm'], what: `Step "${step.id}" has both a confirming phrase and a check.`, mend: 'Put the check in a step of its own after it.' })
  }
  return problems
}

function handsTime(step: Step, path: Path): Problem[] {
  if (step.handsSeconds > 0) return []
  return [{ path: [...path, 'hands'], what: `Step "${step.id}" gives no time for the hands.`, mend: 'Say about how long it takes, such as 10 s.' }]
}

function waitLimits(step: Step, path: Path): Problem[] {
  const wait = step.wait
  if (!wait) return []
  const problems: Problem[] = []
  if (wait.minSeconds <= 0) {
    problems.push({ path: [...path, 'wait', 'at least'], what: `The wait of step "${step.id}" has no length.`, mend: 'Give it a time above zero, or take the wait out.' })
  }
  if (wait.maxSeconds !== null && wait.maxSeconds < wait.minSeconds) {
    problems.push({ path: [...path, 'wait', 'at most'], what: `The wait of step "${step.id}" may last ${wait.maxSeconds} s at most but must last ${wait.minSeconds} s at least.`, mend: 'Make "at most" the longer one.' })
  }
  if (wait.late && wait.maxSeconds === null) {
    problems.push({ path: [...path, 'wait', 'late'], what: `Step "${step.id}" says what to do when late, but has no longest time.`, mend: 'Add "at most".' })
  }
  return problems
}

function readingLimits(step: Step, path: Path): Problem[] {
  const check = step.check
  if (check?.kind !== 'reading') return []
  const fits = { strength: ['[ppm]'], temperature: ['Cel', '[degF]'], ph: ['[pH]'] }[check.reading]
  const problems: Problem[] = []
  if (!fits.includes(check.unit)) {
    problems.push({ path: [...path, 'read', 'unit'], what: `Step "${step.id}" reads a ${check.reading} in a unit that does not fit.`, mend: 'Use ppm for strength, C or F for temperature, pH for ph.' })
  }
  if ([check.min, check.max].some((limit) => limit !== null && !Number.isFinite(limit))) {
    problems.push({ path: [...path, 'read'], what: `Step "${step.id}" has a limit that is no number.`, mend: 'Write an ordinary number, or leave that limit out.' })
  }
  if (check.min === null && check.max === null) {
    problems.push({ path: [...path, 'read'], what: `Step "${step.id}" takes a reading but gives no limit.`, mend: 'Add "at least", "at most" or both.' })
  }
  if (check.min !== null && check.max !== null && check.min > check.max) {
    problems.push({ path: [...path, 'read', 'at most'], what: `Step "${step.id}" allows no reading: its lowest is above its highest.`, mend: 'Swap or mend the two limits.' })
  }
  return problems
}

function unknownNames(procedure: Procedure, step: Step, path: Path): Problem[] {
  const tools = new Set(procedure.tools.map((tool) => tool.id))
  const parts = new Set(procedure.parts.map((part) => part.id))
  const missing = (key: string, names: readonly string[], known: ReadonlySet<string>, list: string): Problem[] =>
    names
      .filter((name) => !known.has(name))
      .map((name) => ({ path: [...path, key], what: `Step "${step.id}" names "${name}", which is not in the list of ${list}.`, mend: `Add it to ${list}, or check the spelling.` }))
  return [
    ...missing('take', step.takes, tools, 'tools'),
    ...missing('free', step.frees, tools, 'tools'),
    ...missing('count', step.check?.kind === 'count' ? step.check.parts : [], parts, 'parts')
  ]
}
