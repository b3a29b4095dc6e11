/** Waits and the order of the whole. */
import { planFor } from '../../plan/plan.ts'
import { wholeProblem } from '../../plan/problem-of-run.ts'
import { layOut } from '../course.ts'
import type { Rule } from './rule.ts'
import { stepsIn } from './steps-in.ts'

const noLongestTime: Rule = {
  id: 'no-longest-time',
  weight: 'warning',
  reason:
    'A beater that turns on and on heats and wears, and acid that stays eats metal: somebody must be called in time.',
  source: 'Common practice, no source; makers give a longest time.',
  find: (procedure) => {
    const acids = new Set(procedure.solutions.filter(({ chemical }) => chemical === 'acid').map(({ id }) => id))
    return stepsIn(procedure).flatMap(({ step, path }) => {
      const { wait, chemistry } = step
      if (!wait || wait.maxSeconds !== null) return []
      const isAcid = chemistry?.kind === 'use' && chemistry.solutions.some((id) => acids.has(id))
      return wait.kind === 'agitation' || isAcid
        ? [
            {
              path: [...path, 'wait'],
              what: `The wait of step "${step.id}" may last for ever.`,
              mend: 'Add "at most".'
            }
          ]
        : []
    })
  }
}

const limitCannotBeKept: Rule = {
  id: 'limit-cannot-be-kept',
  weight: 'warning',
  reason: 'One pair of hands misses it every day.',
  source: 'Worked out from the procedure itself and the hands-on times in it.',
  find: (procedure) => {
    const planned = planFor(wholeProblem(layOut(procedure)))
    if (planned.kind === 'fault' || planned.plan.limits.kind === 'kept') return []
    const minutes = Math.ceil(planned.plan.limits.lateMs / 60_000)
    return [
      {
        path: ['stages'],
        what: `Not every "at most" can be kept by one pair of hands: at least one is missed by ${minutes} min.`,
        mend: 'Shorten what has to be done meanwhile, or begin the waits later.'
      }
    ]
  }
}

export const TIMING: readonly Rule[] = [noLongestTime, limitCannotBeKept]
