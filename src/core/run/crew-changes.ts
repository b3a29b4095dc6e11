/** How the pairs of hands change. */
import type { LaneId } from '../procedure/procedure.ts'
import { handsOf, type Hands, type Run } from './run.ts'

export function newHands(device: string, name: string): Hands {
  return { device, name, focus: null, chosen: false, returned: false, restUntil: null }
}

/** The hands that a device speaks to are on a lane now. */
export function handsOn(
  run: Run,
  device: string,
  lane: LaneId,
  { chosen = false, restUntil = null }: Partial<Pick<Hands, 'chosen' | 'restUntil'>> = {}
): Run {
  return changed(run, device, (hands) => ({
    ...hands,
    focus: lane,
    chosen,
    restUntil,
    returned: hands.focus === lane ? hands.returned : hands.focus !== null && run.lanes[lane]?.last !== null
  }))
}

/** They have done something on the lane, so they know where they are. */
export function handsWorked(run: Run, device: string, lane: LaneId): Run {
  return changed(run, device, (hands) => ({
    ...hands,
    focus: lane,
    chosen: hands.chosen && hands.focus === lane,
    restUntil: null,
    returned: false
  }))
}

/** Whoever carries on, or is back from a pause, has to find the place again. */
export function interrupted(hands: Hands): Hands {
  return { ...hands, returned: hands.focus !== null }
}

export function handedOver(run: Run, device: string, name: string): Run {
  return changed(run, device, (hands) => ({ ...interrupted(hands), name }))
}

function changed(run: Run, device: string, change: (hands: Hands) => Hands): Run {
  const mine = handsOf(run, device)
  return { ...run, crew: run.crew.map((hands) => (hands === mine ? change(hands) : hands)) }
}
