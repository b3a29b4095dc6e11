/** Every text must exist in every language of its procedure (more may be in the making) and give its amounts in both systems. */
import { inUnits } from '../talk/quantities.ts'
import type { Problem } from './problem.ts'
import type { Procedure, Text } from './procedure.ts'

export function checkWords(procedure: Procedure): Problem[] {
  const { languages } = procedure
  const problems: Problem[] = languages.flatMap((language, index) =>
    languages.indexOf(language) === index
      ? []
      : [{ path: ['languages', index], what: `The language ${language} is named twice.`, mend: 'Name it once.' }]
  )
  const look = (text: Text | null | undefined, ...path: (string | number)[]) => {
    if (text) problems.push(...textProblems(text, languages, path))
  }
  look(procedure.title, 'title')
  look(procedure.summary, 'summary')
  look(procedure.machine, 'machine')
  look(procedure.aboutMachine, 'about the machine')
  procedure.sides.forEach((side, index) => look(side.name, 'sides', index, 'name'))
  procedure.tools.forEach((tool, index) => look(tool.name, 'tools', index, 'name'))
  procedure.parts.forEach((part, index) => look(part.name, 'parts', index, 'name'))
  procedure.supplies.forEach((supply, index) => {
    look(supply.name, 'supplies', index, 'name')
    look(supply.amount, 'supplies', index, 'amount')
  })
  procedure.solutions.forEach((solution, index) => {
    look(solution.name, 'solutions', index, 'name')
    look(solution.amount, 'solutions', index, 'amount')
    look(solution.directions, 'solutions', index, 'directions')
  })
  procedure.stages.forEach((stage, stageIndex) => {
    look(stage.title, 'stages', stageIndex, 'stage')
    stage.steps.forEach((step, stepIndex) => {
      const at = (text: Text | null | undefined, ...rest: (string | number)[]) =>
        look(text, 'stages', stageIndex, 'steps', stepIndex, ...rest)
      at(step.say, 'say')
      at(step.more, 'more')
      at(step.why, 'why')
      at(step.confirm, 'confirm')
      step.cautions.forEach((caution, index) => {
        at(caution.hazard, 'cautions', index, 'hazard')
        at(caution.consequence, 'cautions', index, 'consequence')
        at(caution.avoid, 'cautions', index, 'avoid')
      })
      at(step.wait?.source, 'wait', 'source')
      at(step.wait?.late?.say, 'wait', 'late', 'say')
      const key = step.check === null ? '' : { 'yes-no': 'ask', reading: 'read', count: 'count' }[step.check.kind]
      at(step.check?.ask, key, 'question')
      step.check?.corrections.forEach((correction, index) => at(correction, key, 'if not', index))
      if (step.check?.kind === 'reading') at(step.check.source, key, 'source')
    })
  })
  return problems
}

function textProblems(text: Text, languages: readonly string[], path: Problem['path']): Problem[] {
  const problems: Problem[] = []
  const missing = languages.filter((language) => text[language] === undefined)
  if (missing.length > 0) {
    problems.push({
      path,
      what: `These words are missing in ${missing.join(', ')}.`,
      mend: 'Write the text as one entry a language, or take the language out of "languages".'
    })
  }
  if (Object.values(text).some((words) => /[{}]/.test(inUnits(words, 'metric')))) {
    problems.push({
      path,
      what: 'An amount in braces is not written in two systems.',
      mend: 'Write it metric first, such as {7.6 L | 2 gal}, or without braces.'
    })
  }
  return problems
}
