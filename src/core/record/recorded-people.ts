/** Who was at the machine, what interrupted them, and what their clocks showed. */
import type { GivenName, RunEvent } from '../run/event.ts'
import {
  entryOf,
  type ClockRow,
  type CrewRow,
  type DeviceClock,
  type Interruption,
  type NameKnown,
  type SaidRow
} from './run-record.ts'
import type { Visited } from './walk.ts'

export function recordedCrew(visits: readonly Visited[]): readonly CrewRow[] {
  const checked = new Set(visits.flatMap(({ event }) => (event.type === 'name-checked' ? [event.entry] : [])))
  const known = ({ id, who }: { readonly id: string; readonly who?: GivenName }): NameKnown =>
    checked.has(id) ? 'checked' : who ? 'chosen' : 'typed'
  return visits.flatMap(({ event, before, counts }): readonly CrewRow[] => {
    if (counts === 'set-aside') return []
    switch (event.type) {
      case 'run-started':
        return [{ ...entryOf(event), kind: 'began', name: event.by, known: known(event) }]
      case 'joined':
        return [{ ...entryOf(event), kind: 'joined', name: event.name, known: known(event) }]
      case 'left': {
        const name = before.crew.find(({ device }) => device === event.hands)?.name ?? ''
        return [{ ...entryOf(event), kind: 'left', name, known: null }]
      }
      case 'handed-over':
        return [{ ...entryOf(event), kind: 'handed-over', name: event.to, known: known(event) }]
      default:
        return []
    }
  })
}

export function recordedInterruptions(visits: readonly Visited[]): readonly Interruption[] {
  const rows: Interruption[] = []
  for (const { event, before, after } of visits) {
    if (before.status !== 'paused' && after.status === 'paused') rows.push({ by: event.by, from: event.at, to: null })
    const last = rows.at(-1)
    if (before.status === 'paused' && after.status !== 'paused' && last)
      rows[rows.length - 1] = { ...last, to: event.at }
  }
  return rows
}

/** By when it was said, from all devices. */
export function recordedSaid(events: readonly RunEvent[]): readonly SaidRow[] {
  return events
    .flatMap((event) =>
      event.type === 'spoken' ? event.lines.map((line) => ({ ...line, device: event.device, by: event.by })) : []
    )
    .sort((a, b) => a.at - b.at)
}

/** Skewed clocks are shown: how far each device's own clock was from trusted time. */
export function deviceClocks(events: readonly RunEvent[]): readonly DeviceClock[] {
  const clocks = new Map<string, DeviceClock>()
  for (const { device, deviceAt, at } of events) {
    const known = clocks.get(device)
    const skew = deviceAt - at
    clocks.set(device, {
      device,
      entries: (known?.entries ?? 0) + 1,
      leastSkewMs: Math.min(known?.leastSkewMs ?? skew, skew),
      mostSkewMs: Math.max(known?.mostSkewMs ?? skew, skew)
    })
  }
  return [...clocks.values()]
}

export function clockNotes(events: readonly RunEvent[]): readonly ClockRow[] {
  return events.flatMap((event): readonly ClockRow[] => {
    if (event.type === 'clock-moved') return [{ ...entryOf(event), kind: 'moved', byMs: event.byMs }]
    if (event.type === 'clock-caught-up') return [{ ...entryOf(event), kind: 'caught-up', byMs: event.byMs }]
    return []
  })
}
