/** Parts that are counted off and on again: each of them both ways, and never on while one may still be missing. */
import { layOut, type Course } from './course.ts'
import { pathOfStep } from './path-of-step.ts'
import type { Problem } from './problem.ts'
import { MACHINE, type LaneId, type Procedure } from './procedure.ts'

interface Counted {
  readonly part: string
  readonly lane: LaneId
  readonly step: string
  readonly going: 'off' | 'on'
  readonly block: number
  readonly index: number
}

/** A procedure that only takes apart, or only builds up, leaves the other half to another procedure. */
export function checkCounts(procedure: Procedure): Problem[] {
  const counted = countsIn(layOut(procedure))
  const [off, on] = (['off', 'on'] as const).map((going) => counted.filter((one) => one.going === going))
  if (!off?.length || !on?.length) return []
  const told = new Set<string>()
  return [...oneWay(off, on, procedure), ...oneWay(on, off, procedure), ...tooEarly(off, on, procedure)].filter(
    ({ what }) => (told.has(what) ? false : (told.add(what), true))
  )
}

function countsIn({ lanes }: Course): Counted[] {
  return lanes.flatMap(({ id, steps }) =>
    steps.flatMap(({ step, block }, index) =>
      step.check?.kind === 'count' && step.check.going !== undefined
        ? step.check.parts.map((part) => ({
            part,
            lane: id,
            step: step.id,
            going: step.check?.kind === 'count' && step.check.going === 'on' ? ('on' as const) : ('off' as const),
            block,
            index
          }))
        : []
    )
  )
}

function oneWay(these: readonly Counted[], others: readonly Counted[], procedure: Procedure): Problem[] {
  return these
    .filter(({ part }) => others.every((other) => other.part !== part))
    .map(({ part, step, going }) => ({
      path: pathOfStep(procedure, step, 'count', 'going'),
      what: `"${part}" is counted ${going} in step "${step}", and never ${going === 'off' ? 'on' : 'off'}.`,
      mend: `Add it to a count that is going: ${going === 'off' ? 'on' : 'off'}, or take it out of this one.`
    }))
}

/** Lanes do not know each other: only a whole-machine step keeps one from building up while another still searches. */
function tooEarly(off: readonly Counted[], on: readonly Counted[], procedure: Procedure): Problem[] {
  return on.flatMap((fitted) =>
    off
      .filter(({ part }) => part === fitted.part)
      .filter((taken) => !isOfAnotherSide(taken, fitted, procedure))
      .filter((taken) => (taken.lane === fitted.lane ? taken.index >= fitted.index : !isBehindBarrier(taken, fitted)))
      .map((taken) => ({
        path: pathOfStep(procedure, fitted.step, 'count', 'going'),
        what: `"${fitted.part}" can be counted on in step "${fitted.step}" while step "${taken.step}" still counts it off.`,
        mend: 'Put a whole-machine step between the two, so that a missing part stops the machine from being put together.'
      }))
  )
}

/** Each side has its own. */
function isOfAnotherSide(taken: Counted, fitted: Counted, { parts, sides }: Procedure): boolean {
  const isSide = (lane: LaneId) => sides.some(({ id }) => id === lane)
  const isOwn = parts.find(({ id }) => id === fitted.part)?.per === 'side'
  return isOwn && taken.lane !== fitted.lane && isSide(taken.lane) && isSide(fitted.lane)
}

/** The count of a whole-machine step is itself the barrier that ends its block. */
function isBehindBarrier(taken: Counted, fitted: Counted): boolean {
  return taken.block < fitted.block || (fitted.lane === MACHINE && taken.block <= fitted.block)
}
