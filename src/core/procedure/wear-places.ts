/** Where a procedure's wearing parts are: on each side, or on the machine as a whole. */
import { MACHINE, type LaneId, type Part, type Procedure, type Wear } from './procedure.ts'

export interface WearPlace {
  readonly part: Part
  readonly wear: Wear
  readonly lane: LaneId
}

export function wearPlaces({ parts, sides }: Pick<Procedure, 'parts' | 'sides'>): readonly WearPlace[] {
  return parts.flatMap((part) => {
    const { wear } = part
    if (!wear) return []
    const lanes = part.per === 'side' ? sides.map(({ id }) => id) : [MACHINE]
    return lanes.map((lane) => ({ part, wear, lane }))
  })
}
