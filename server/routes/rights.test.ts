import { describe, expect, test } from 'vitest'
import { anApp } from '../../tests/helpers/an-app.ts'
import { aShopOf, CALLERS, type CallerName } from '../../tests/helpers/shop-callers.ts'
import { RIGHTS, type Right } from './rights.ts'

/** The app's own routes, without what stands in front of all of them. */
function routesOf(app: ReturnType<typeof anApp>['app']): readonly string[] {
  const own = app.routes.filter(({ path }) => path.startsWith('/api') && path !== '/api/*')
  return [...new Set(own.map(({ method, path }) => `${method} ${path}`))].toSorted()
}

test('every route stands in the table, and the table names no route that is not there', () => {
  expect(routesOf(anApp().app)).toEqual(Object.keys(RIGHTS).toSorted())
})

const OF_SHOP = ['device', 'operator', 'supervisor', 'elevated', 'owner', 'elevated owner'] as const
const SIGNED_IN = ['supervisor', 'elevated', 'owner', 'elevated owner'] as const

/** Written out, so that it is not the code's own judgement. */
const MAY: Readonly<Record<Right, readonly CallerName[]>> = {
  anyone: CALLERS,
  run: OF_SHOP,
  records: [...OF_SHOP, 'inspector', 'inspector of a machine'],
  calendar: OF_SHOP,
  author: SIGNED_IN,
  supervisor: SIGNED_IN,
  elevated: ['elevated', 'elevated owner'],
  owner: ['owner', 'elevated owner']
}
const OPEN_BEFORE: readonly Right[] = ['anyone', 'run', 'records', 'calendar', 'author']

/** Whoever takes these is nobody afterwards: they come last. */
const SIGNING_OUT = ['DELETE /api/me/sessions', 'DELETE /api/session']
const IN_ORDER = Object.entries(RIGHTS).toSorted(([a], [b]) => SIGNING_OUT.indexOf(a) - SIGNING_OUT.indexOf(b))

/** A path that reaches the handler; whatever that says, it is not the guard's refusal. */
function asked(route: string): { readonly method: string; readonly path: string } {
  const [method = '', path = ''] = route.split(' ')
  return { method, path: path.replace(/:\w+/g, 'x') }
}

/** What the guard says, as against a route of its own that refuses. */
const GUARDS_TITLES = [
  'This shop has no owner yet',
  'This device is not paired',
  'Sign in first',
  'Give your password again',
  'Only an owner may do this',
  'This link only reads records'
]

/** What was let in is not read: one of the routes is a stream without an end. */
function isLetIn(answer: Response): boolean {
  const isIn = answer.status !== 401 && answer.status !== 403
  if (isIn) void answer.body?.cancel()
  return isIn
}

describe('every route against everybody', () => {
  test.each(CALLERS)('%s', async (name) => {
    const shop = await aShopOf(name)
    for (const [route, right] of IN_ORDER) {
      const { method, path } = asked(route)
      const answer = await shop.as(path, { method })
      const may = MAY[right].includes(name)
      expect([route, isLetIn(answer)]).toEqual([route, may])
      if (!may) {
        const problem = (await answer.json()) as { title: string; detail: string }
        expect(GUARDS_TITLES).toContain(problem.title)
        expect(problem.detail).toMatch(/\w/)
        // RFC 9110, 11.6.1.
        expect(answer.headers.has('www-authenticate')).toBe(answer.status === 401)
      }
      if (method === 'GET') {
        const head = await shop.as(path, { method: 'HEAD' })
        expect([route, isLetIn(head)]).toEqual([route, may])
      }
    }
  })

  test('before the shop has an owner, runs are open and nothing has authority', async () => {
    const { app } = anApp()
    for (const [route, right] of Object.entries(RIGHTS)) {
      const { method, path } = asked(route)
      const answer = await app.request(path, { method })
      expect([route, isLetIn(answer)]).toEqual([route, OPEN_BEFORE.includes(right)])
      if (answer.status === 403)
        expect(await answer.json()).toMatchObject({ detail: expect.stringContaining('one-time code') })
    }
  })
})

test('a method that the table does not have for a path is refused before anything else, whoever asks', async () => {
  const shop = await aShopOf('elevated owner')
  const table = Object.keys(RIGHTS).map(asked)
  for (const path of new Set(table.map((one) => one.path))) {
    const methods = table.flatMap(({ method, path: its }) => {
      if (its !== path) return []
      return method === 'GET' ? ['GET', 'HEAD'] : [method]
    })
    for (const method of ['GET', 'HEAD', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS', 'PROPFIND']) {
      if (methods.includes(method)) continue
      const answer = await shop.as(path, { method })
      expect([method, path, answer.status, answer.headers.get('allow')]).toEqual([
        method,
        path,
        405,
        methods.join(', ')
      ])
    }
  }
})
