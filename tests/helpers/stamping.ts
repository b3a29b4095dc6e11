/** Envelopes for events in tests: counted ids, one device, the time given. */
import type { RunEvent, RunFact, Via } from '../../src/core/run/event.ts'
import type { Stamp } from '../../src/core/run/decide.ts'

export function counting(device = 'tablet'): (at: number, via?: Via) => Stamp {
  let seq = 0
  return (at, via = 'touch') =>
    (fact: RunFact): RunEvent => {
      seq += 1
      return { id: `${device}-${seq}`, runId: 'run', at, deviceAt: at, device, seq, by: 'Ada', via, ...fact }
    }
}

export const STARTED: RunFact = {
  type: 'run-started',
  procedureId: 'test-machine',
  procedureHash: 'hash',
  site: 'Corner shop',
  machine: 'Freezer 1',
  zone: 'America/Chicago'
}
