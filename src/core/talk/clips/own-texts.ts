/** Every text of a procedure's author that the voice may have to say during a run. */
import type { Procedure, Step, Text } from '../../procedure/procedure.ts'

export function ownTexts(procedure: Procedure): readonly Text[] {
  return [
    ...procedure.stages.flatMap(({ steps }) => steps.flatMap(textsOf)),
    ...procedure.parts.map(({ name }) => name),
    ...procedure.tools.map(({ name }) => name)
  ]
}

function textsOf({ say, more, why, cautions, confirm, check, wait }: Step): readonly Text[] {
  return [
    ...cautions.flatMap(({ hazard, consequence, avoid }) => [hazard, consequence, avoid]),
    say,
    ...(confirm ? [confirm] : []),
    ...(check ? [check.ask, ...check.corrections] : []),
    ...(wait?.late ? [wait.late.say] : []),
    ...(more ? [more] : []),
    ...(why ? [why] : [])
  ]
}
