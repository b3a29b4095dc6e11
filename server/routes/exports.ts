/** Evidence to take away: one run, a machine, a site, a span of days. */
import { Hono, type Context } from 'hono'
import { askedWithin } from '../accounts/within-link.ts'
import { recordsCsv } from '../../src/core/record/record-csv.ts'
import { makeExport } from '../exports/make-export.ts'
import { recordsOf } from '../exports/records-in-scope.ts'
import { readScope, runsInScope, scopeName, type Scope } from '../exports/scope.ts'
import { notFound, problem } from '../problem.ts'
import { recordReader } from '../readers.ts'
import type { Signer } from '../signing/signing-key.ts'
import type { Records } from '../storage/records.ts'

export interface ExportRoutes {
  readonly records: Records
  readonly signer: Signer
  readonly now: () => number
}

export function exportRoutes({ records, signer, now }: ExportRoutes): Hono {
  const routes = new Hono()

  routes.get('/export.json', async (context) => {
    const read = readScope(askedWithin(context))
    if (read.kind === 'faulty') return problem(context, 422, 'No such days', read.why)
    const isAll = Object.values(read.scope).every((part) => part === null)
    const runs = isAll ? null : await runsInScope(records, read.scope)
    if (runs?.length === 0) return notFound(context)
    asFile(context, read.scope, 'json')
    return context.json(await makeExport({ records, signer, at: now() }, runs))
  })

  routes.get('/export.csv', async (context) => {
    const read = readScope(askedWithin(context))
    if (read.kind === 'faulty') return problem(context, 422, 'No such days', read.why)
    const runs = await runsInScope(records, read.scope)
    if (runs.length === 0) return notFound(context)
    asFile(context, read.scope, 'csv')
    const table = recordsCsv(await recordsOf(records, runs), recordReader(context.req.query('language')))
    // Spreadsheets take a file for UTF-8 only when it begins with this mark.
    return context.body(`\ufeff${table}`, 200, { 'content-type': 'text/csv; charset=utf-8; header=present' })
  })
  return routes
}

function asFile(context: Context, scope: Scope, kind: string): void {
  const name = encodeURIComponent(`sidecall-${scopeName(scope)}.${kind}`)
  context.header('content-disposition', `attachment; filename*=UTF-8''${name}`)
}
