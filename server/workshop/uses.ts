/** Where versions of procedures were carried out, and are just now. */
import type { Use } from '../../src/ports/workshop.ts'
import type { RunRow } from '../storage/records.ts'

/** By procedure, the last used first. */
export function usesIn(runs: readonly RunRow[]): ReadonlyMap<string, readonly Use[]> {
  const uses = new Map<string, Map<string, Use>>()
  for (const { started, open, lastAt } of runs) {
    const { procedureId, procedureHash: hash, site, machine } = started
    const ofProcedure = uses.get(procedureId) ?? new Map<string, Use>()
    const key = JSON.stringify([hash, site, machine])
    const { runs: before, open: going, lastAt: last } = ofProcedure.get(key) ?? { runs: 0, open: 0, lastAt: 0 }
    ofProcedure.set(key, {
      ...{ hash, site, machine, runs: before + 1, open: going + (open ? 1 : 0) },
      lastAt: Math.max(last, lastAt)
    })
    uses.set(procedureId, ofProcedure)
  }
  return new Map([...uses].map(([id, each]) => [id, [...each.values()].sort((a, b) => b.lastAt - a.lastAt)]))
}
