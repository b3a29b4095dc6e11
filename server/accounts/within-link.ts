/** What an inspector's link for one machine lets be seen: that machine, whatever is asked for. */
import type { Context } from 'hono'
import type { Scope } from '../exports/scope.ts'
import type { Records } from '../storage/records.ts'

/** Null for whoever may see every machine. */
function onlyMachine(context: Context): string | null {
  const { shop, device, session, link } = context.get('caller')
  return shop === 'owned' && !device && !session ? (link?.machine ?? null) : null
}

/** The query of a request for records, within what may be seen. */
export function askedWithin(context: Context): (name: keyof Scope) => string | undefined {
  const machine = onlyMachine(context)
  return (name) => (name === 'machine' && machine !== null ? machine : context.req.query(name))
}

export async function maySeeRun(context: Context, records: Records, runId: string): Promise<boolean> {
  const machine = onlyMachine(context)
  if (machine === null) return true
  const runs = await records.runs(Number.MAX_SAFE_INTEGER)
  return runs.some((run) => run.runId === runId && run.started.machine === machine)
}
