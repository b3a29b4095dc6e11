/**
 * The procedures of this device. Whatever the server offers is fetched and kept at once, so that a run can also begin
 * while the server is away; then the last offer counts, as far as it is kept here.
 */
import { layOut, type Course } from '../core/procedure/course.ts'
import type { Procedure } from '../core/procedure/procedure.ts'
import { readProceduresAnswer } from '../core/record/wire-answers.ts'
import type { Kept } from '../ports/event-log.ts'
import type { ProcedureFault, ProcedureListing, ServerFailure } from '../ports/server.ts'
import type { Ports } from './ports.ts'

export interface ProceduresOffered {
  readonly procedures: readonly ProcedureListing[]
  readonly faults: readonly ProcedureFault[]
  /** Null while the list is fresh; otherwise why it may be old or empty. */
  readonly failure: ServerFailure | null
}

export interface ProcedureShelf {
  offered(): Promise<ProceduresOffered>
  /** One version; null when it is neither here nor to be had. */
  course(hash: string): Promise<Course | null>
}

const LAST_OFFER = 'procedures-offered'

/** `notKept` is told when this device cannot keep something: it would be missing while the server is away. */
export function openProcedureShelf(
  { log, server }: Pick<Ports, 'log' | 'server'>,
  notKept: (failed: Extract<Kept<void>, { kind: 'failed' }>) => void
): ProcedureShelf {
  let keeping: Promise<void> = Promise.resolve()

  async function procedure(hash: string): Promise<Procedure | null> {
    const kept = await log.procedure(hash)
    if (kept.kind === 'kept' && kept.value) return kept.value.procedure
    const answered = await server.procedure(hash)
    if (answered.kind === 'failed') return null
    told(await log.keepProcedure({ hash, procedure: answered.value }))
    return answered.value
  }

  function told(kept: Kept<void>): void {
    if (kept.kind === 'failed') notKept(kept)
  }

  async function keepOffer(procedures: readonly ProcedureListing[]): Promise<void> {
    told(await log.keepSetting(LAST_OFFER, JSON.stringify({ procedures, faults: [] })))
    for (const { hash } of procedures) await procedure(hash)
  }

  async function keptOffer(): Promise<readonly ProcedureListing[]> {
    const kept = await log.setting(LAST_OFFER)
    const listed = kept.kind === 'kept' && kept.value !== null ? listingsIn(kept.value) : []
    const here = await Promise.all(listed.map(({ hash }) => log.procedure(hash)))
    return listed.filter((_, place) => {
      const one = here[place]
      return one?.kind === 'kept' && one.value !== null
    })
  }

  return {
    async offered() {
      const listed = await server.procedures()
      if (listed.kind === 'failed') {
        return { procedures: await keptOffer(), faults: [], failure: listed.failure }
      }
      const { procedures, faults } = listed.value
      keeping = keeping.then(() => keepOffer(procedures))
      return { procedures, faults, failure: null }
    },
    async course(hash) {
      const found = await procedure(hash)
      return found && layOut(found)
    }
  }
}

/** The last offer is kept in the server's own form. One that cannot be read is none; the next one replaces it. */
function listingsIn(text: string): readonly ProcedureListing[] {
  try {
    return readProceduresAnswer(JSON.parse(text))?.procedures ?? []
  } catch {
    return []
  }
}
