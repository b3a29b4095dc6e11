/** Stands in front of every route of the interface: finds out who asks, and lets through what the table allows. */
import type { MiddlewareHandler } from 'hono'
import { notFound, problem } from '../problem.ts'
import { slowDown } from '../routes/account-body.ts'
import { RIGHTS, type Right } from '../routes/rights.ts'
import { countStrangers } from './strangers.ts'
import type { Accounts } from './accounts.ts'
import { callerOf } from './caller.ts'
import { addressOf } from './cookies.ts'
import { mayUse } from './may-use.ts'

interface Row {
  readonly methods: ReadonlyMap<string, Right>
  readonly segments: readonly string[]
}

export function guard(
  accounts: Accounts,
  now: () => number,
  rights: Readonly<Record<string, Right>> = RIGHTS
): MiddlewareHandler {
  const rows = rowsOf(rights)
  const strangers = countStrangers()
  return async (context, next) => {
    const row = rowFor(rows, context.req.path)
    if (!row) return notFound(context)
    const { method } = context.req
    const right = row.methods.get(method === 'HEAD' ? 'GET' : method)
    if (right === undefined) {
      const allow = [...row.methods.keys()].flatMap((one) => (one === 'GET' ? ['GET', 'HEAD'] : [one])).join(', ')
      context.header('allow', allow)
      return problem(context, 405, 'Not allowed', `Use ${allow} here.`)
    }
    const caller = await callerOf(context, accounts, now())
    context.set('caller', caller)
    const isKnown = caller.shop === 'unowned' || caller.device || caller.session || caller.link
    const waitMs = isKnown ? 0 : strangers.asks(addressOf(context), now())
    if (waitMs > 0) return slowDown(context, waitMs)
    const judged = mayUse(right, caller, now())
    const mayStill = async () => mayUse(right, await callerOf(context, accounts, now()), now()).kind === 'may'
    context.set('mayStill', mayStill)
    if (judged.kind === 'may') return next()
    // RFC 9110, 11.6.1: whoever answers 401 names a way to say who one is. Browsers do not know this one and ask nothing.
    if (judged.status === 401) context.header('www-authenticate', 'Sidecall')
    return problem(context, judged.status, judged.title, judged.detail)
  }
}

function rowsOf(rights: Readonly<Record<string, Right>>): readonly Row[] {
  const byPath = new Map<string, Map<string, Right>>()
  for (const [route, right] of Object.entries(rights)) {
    const [method = '', path = ''] = route.split(' ')
    byPath.set(path, (byPath.get(path) ?? new Map()).set(method, right))
  }
  return [...byPath].map(([path, methods]) => ({ methods, segments: path.split('/') }))
}

/** A path that is named as it is comes before one with a part left open. */
function rowFor(rows: readonly Row[], path: string): Row | null {
  const asked = path.split('/')
  const fitting = rows.filter(
    ({ segments }) =>
      segments.length === asked.length &&
      segments.every((segment, index) => (segment.startsWith(':') ? asked[index] !== '' : segment === asked[index]))
  )
  return fitting.find(({ segments }) => !segments.some((segment) => segment.startsWith(':'))) ?? fitting[0] ?? null
}
