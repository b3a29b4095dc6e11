/** How the pairs of hands change. */
import type { LaneId } from '../procedure/procedure.ts'
import type { RunEvent } from './event.ts'
import { handsIn, type Hands, type Run } from './run.ts'

export type CrewChange = Extract<RunEvent, { type: 'joined' | 'left' | 'handed-over' }>

/** The crew after somebody came, went or took over; null when the event does not fit. */
export function crewAfter(crew: readonly Hands[], event: CrewChange): readonly Hands[] | null {
  switch (event.type) {
    case 'joined':
      return crew.some(({ device }) => device === event.device) ? null : [...crew, newHands(event.device, event.name)]
    case 'left': {
      const rest = crew.filter(({ device }) => device !== event.hands)
      return rest.length === 0 || rest.length === crew.length ? null : rest
    }
    case 'handed-over':
      return changed(crew, event.device, (hands) => ({ ...interrupted(hands), name: event.to }))
  }
}

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
  const crew = changed(run.crew, device, (hands) => ({
    ...hands,
    focus: lane,
    chosen,
    restUntil,
    returned: hands.focus === lane ? hands.returned : hands.focus !== null && run.lanes[lane]?.last !== null
  }))
  return { ...run, crew }
}

/** They have done something on the lane, so they know where they are. */
export function handsWorked(run: Run, device: string, lane: LaneId): Run {
  const crew = changed(run.crew, device, (hands) => ({
    ...hands,
    focus: lane,
    chosen: hands.chosen && hands.focus === lane,
    restUntil: null,
    returned: false
  }))
  return { ...run, crew }
}

/** Whoever carries on, or is back from a pause, has to find the place again. */
export function interrupted(hands: Hands): Hands {
  return { ...hands, returned: hands.focus !== null }
}

function changed(crew: readonly Hands[], device: string, change: (hands: Hands) => Hands): readonly Hands[] {
  const mine = handsIn(crew, device)
  return crew.map((hands) => (hands === mine ? change(hands) : hands))
}
