import { describe, expect, test } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import { memoryAccounts } from '../../tests/helpers/memory-accounts.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { aShopOf, SUPERVISOR } from '../../tests/helpers/shop-callers.ts'
import { OWNER, sending } from '../../tests/helpers/shop-people.ts'
import { firstOwnerCode, laterOwnerCode } from '../accounts/owner-code.ts'

const MINUTE = 60_000
const me = async (ask: (path: string) => Promise<Response>) => (await ask('/api/me')).json() as Promise<unknown>

describe('the first owner', () => {
  test('is made by the code of the console, signed in with authority, on a device that is paired', async () => {
    const shop = anApp()
    const ask = shop.browser()
    expect(await me(ask)).toEqual({ shop: 'unowned', device: null, person: null, link: null })
    const code = await laterOwnerCode(shop.accounts, NOW)
    // As somebody types it who reads it from another screen.
    const typed = code.toLowerCase().replace('-', ' ').replace(/0/g, 'o').replace(/1/g, 'l')
    const answer = await ask('/api/password', sending('POST', { code: typed, ...OWNER }))
    expect(await answer.json()).toMatchObject({
      shop: 'owned',
      device: { name: 'First device' },
      person: { name: OWNER.name, role: 'owner', elevatedMs: 5 * MINUTE }
    })
    expect(await me(ask)).toMatchObject({ shop: 'owned', device: { name: 'First device' }, person: { role: 'owner' } })
  })

  test('is not made by a wrong code, one that was used, or one that is too old; a bad password costs no code', async () => {
    let now = NOW
    const shop = anApp({ now: () => now })
    const ask = shop.browser()
    const code = await laterOwnerCode(shop.accounts, now)
    const attempt = (one: object) => ask('/api/password', sending('POST', { code, ...OWNER, ...one }))
    await expectProblem(await attempt({ code: 'AAAA-AAAA' }), 422)
    await expectProblem(await attempt({ password: 'short' }), 422)
    expect((await attempt({})).status).toBe(200)
    await expectProblem(await attempt({ name: 'Somebody Else' }), 422)
    const late = await laterOwnerCode(shop.accounts, now)
    now += 61 * MINUTE
    await expectProblem(await ask('/api/password', sending('POST', { code: late, ...OWNER })), 422)
  })

  test('is made by the code of the latest start; once there is one, no other code of the console is left', async () => {
    const shop = anApp()
    const start = async () => (await firstOwnerCode(shop.accounts, NOW)) ?? ''
    const use = (code: string) => shop.browser()('/api/password', sending('POST', { code, ...OWNER }))
    const first = await start()
    const second = await start()
    await expectProblem(await use(first), 422)
    expect((await use(second)).status).toBe(200)
    await expectProblem(await use(first), 422)
    await expectProblem(await use(second), 422)
    expect(await firstOwnerCode(shop.accounts, NOW)).toBeNull()
  })

  test('gets a new password by the latest code of the console alone, and by none made while the clock was years ahead', async () => {
    const shop = anApp()
    const ask = await shop.owner()
    const use = (code: string) => ask('/api/password', sending('POST', { code, ...OWNER }))
    const ahead = await laterOwnerCode(shop.accounts, NOW + 365 * 24 * 60 * MINUTE)
    await expectProblem(await use(ahead), 422)
    const earlier = await laterOwnerCode(shop.accounts, NOW)
    const latest = await laterOwnerCode(shop.accounts, NOW)
    await expectProblem(await use(earlier), 422)
    expect((await use(latest)).status).toBe(200)
  })

  test('costs no code while the server is too busy for a password: the same one works a moment later', async () => {
    const accounts = memoryAccounts()
    let busy = true
    const keep = async (secret: string) => (busy ? null : accounts.secrets.keep(secret))
    const shop = anApp({ accounts: { ...accounts, secrets: { ...accounts.secrets, keep } } })
    const code = (await firstOwnerCode(shop.accounts, NOW)) ?? ''
    const ask = shop.browser()
    const use = () => ask('/api/password', sending('POST', { code, ...OWNER }))
    expect((await use()).status).toBe(503)
    expect(await me(ask)).toEqual({ shop: 'unowned', device: null, person: null, link: null })
    expect(await accounts.people()).toEqual([])
    busy = false
    expect(await (await use()).json()).toMatchObject({ shop: 'owned', person: { name: OWNER.name } })
  })

  test('who lost the password sets another one by a new code of the console; the old one, and all it opened, is over', async () => {
    const shop = anApp()
    const before = await shop.owner()
    const ask = shop.browser()
    const code = await laterOwnerCode(shop.accounts, NOW)
    const next = { name: 'olive  OWNER', password: 'four blue buckets' }
    expect(await (await ask('/api/password', sending('POST', { code, ...next }))).json()).toMatchObject({
      person: { name: OWNER.name, role: 'owner' }
    })
    expect(await me(before)).toMatchObject({ person: null })
    await expectProblem(await ask('/api/session', sending('POST', OWNER)), 403)
    expect((await shop.accounts.people()).length).toBe(1)
  })
})

describe('signing in', () => {
  test('gives a new token each time: one that was put there beforehand is worth nothing', async () => {
    const shop = anApp()
    await shop.owner()
    const fixed = 'A'.repeat(43)
    const answer = await shop.app.request('/api/session', {
      ...sending('POST', OWNER),
      headers: { 'content-type': 'application/json', cookie: `sidecall-session=${fixed}` }
    })
    const [cookie = ''] = answer.headers.getSetCookie().filter((one) => /sidecall-session=[^;]{20}/.test(one))
    expect(cookie).not.toContain(fixed)
    const asFixed = await shop.app.request('/api/me', { headers: { cookie: `sidecall-session=${fixed}` } })
    expect(await asFixed.json()).toMatchObject({ person: null })
    // And the one before is over when the password is given again.
    const first = /sidecall-session=([^;]+)/.exec(cookie)?.[0] ?? ''
    const again = await shop.app.request('/api/session/elevation', {
      ...sending('POST', { password: OWNER.password }),
      headers: { 'content-type': 'application/json', cookie: first }
    })
    expect(again.status).toBe(200)
    const old = await shop.app.request('/api/me', { headers: { cookie: first } })
    expect(await old.json()).toMatchObject({ person: null })
  })

  // RFC 6265bis, 4.1.2 and 4.1.3.2: HttpOnly, SameSite, and what the name __Host- asks for.
  test('keeps its tokens where no script and no other site gets at them', async () => {
    const shop = anApp()
    await shop.owner()
    const plain = await shop.app.request('http://localhost/api/session', sending('POST', OWNER))
    for (const cookie of plain.headers.getSetCookie()) {
      expect(cookie).toMatch(/^sidecall-\w+=/)
      expect(cookie).toMatch(/; HttpOnly/)
      expect(cookie).toMatch(/; SameSite=Strict/)
      expect(cookie).toMatch(/; Path=\//)
      expect(cookie).not.toMatch(/Domain/)
    }
    for (const headers of [
      { 'x-forwarded-proto': 'https' },
      { origin: 'https://shop.example', host: 'shop.example' }
    ] as const) {
      const safe = await shop.app.request('http://shop.example/api/session', {
        ...sending('POST', OWNER),
        headers: { 'content-type': 'application/json', ...headers }
      })
      const cookies = safe.headers.getSetCookie()
      expect(cookies.length).toBeGreaterThan(0)
      for (const cookie of cookies) expect(cookie).toMatch(/^__Host-sidecall-\w+=.*; Secure/)
    }
  })

  test('over https a cookie that a neighbouring host could have set does not count', async () => {
    const shop = anApp()
    await shop.owner()
    const answer = await shop.app.request('http://localhost/api/session', sending('POST', OWNER))
    const cookie = answer.headers
      .getSetCookie()
      .map((one) => one.split(';')[0])
      .join('; ')
    const asked = (headers: Record<string, string>) => shop.app.request('http://localhost/api/me', { headers })
    expect(await (await asked({ cookie })).json()).toMatchObject({ person: { name: OWNER.name } })
    expect(await (await asked({ cookie, 'x-forwarded-proto': 'https' })).json()).toMatchObject({ person: null })
  })

  test('says the same whether the name or the password is wrong', async () => {
    const shop = await aShopOf('nobody')
    const words = async (body: object) => {
      const answer = await shop.as('/api/session', sending('POST', body))
      return [answer.status, await answer.json()] as const
    }
    expect(await words({ name: OWNER.name, password: 'wrong password' })).toEqual(
      await words({ name: 'Nobody At All', password: 'wrong password' })
    )
  })

  test('an operator has no password, and the PIN is none', async () => {
    const shop = await aShopOf('operator')
    await expectProblem(await shop.as('/api/session', sending('POST', { name: 'Oz Operator', password: '4711' })), 403)
  })

  test('is refused to a page of another site, JSON or not, and leaves no cookie', async () => {
    const shop = anApp()
    await shop.owner()
    for (const type of ['application/json', 'text/plain', 'application/x-www-form-urlencoded']) {
      const answer = await shop.app.request('/api/session', {
        method: 'POST',
        headers: { 'content-type': type, origin: 'https://evil.example', 'sec-fetch-site': 'cross-site' },
        body: JSON.stringify(OWNER)
      })
      await expectProblem(answer, 403)
      expect(answer.headers.getSetCookie()).toEqual([])
    }
    const noJson = await shop.app.request('/api/session', {
      method: 'POST',
      headers: { 'content-type': 'text/plain' },
      body: JSON.stringify(OWNER)
    })
    await expectProblem(noJson, 415)
  })
})

describe('authority', () => {
  test('stands for five minutes after a password, and is given again by one', async () => {
    const shop = await aShopOf('elevated')
    const made = () => shop.as('/api/pairing-codes', sending('POST'))
    expect((await made()).status).toBe(200)
    shop.pass(5 * MINUTE)
    await expectProblem(await made(), 403)
    const elevate = (password: string) => shop.as('/api/session/elevation', sending('POST', { password }))
    await expectProblem(await elevate('wrong password'), 403)
    await expectProblem(await made(), 403)
    expect((await elevate(SUPERVISOR.password)).status).toBe(200)
    expect((await made()).status).toBe(200)
  })
})

describe('being signed in', () => {
  test.each([
    '/api/live',
    '/api/time',
    '/api/events',
    '/api/health',
    '/api/due?zone=UTC',
    '/api/procedures',
    '/api/procedures/some-hash',
    '/api/runs',
    '/api/runs/some-run/events',
    '/api/speech/procedures/some-hash',
    '/api/speech/clips/some-hash',
    '/api/speech/engine'
  ])('is not kept by a page that asks by itself for %s', async (path) => {
    const shop = await aShopOf('elevated')
    for (let minutes = 0; minutes < 31; minutes += 1) {
      shop.pass(MINUTE)
      await shop.as(path, { method: path === '/api/events' ? 'POST' : 'HEAD' })
    }
    expect(await me(shop.as)).toMatchObject({ person: null })
  })

  test.each(['/api/me', '/api/records', '/api/workshop', '/api/rules', '/api/names'])(
    'is kept by somebody who asks for %s',
    async (path) => {
      const shop = await aShopOf('elevated')
      for (let minutes = 0; minutes < 60; minutes += 20) {
        shop.pass(20 * MINUTE)
        await shop.as(path)
      }
      expect(await me(shop.as)).toMatchObject({ person: { name: SUPERVISOR.name } })
    }
  )
})

describe('signing out', () => {
  test('everywhere ends what is open elsewhere too', async () => {
    const shop = await aShopOf('elevated')
    const elsewhere = shop.browser()
    await elsewhere('/api/session', sending('POST', SUPERVISOR))
    expect(await me(elsewhere)).toMatchObject({ person: { name: SUPERVISOR.name } })
    expect((await shop.as('/api/me/sessions', { method: 'DELETE' })).status).toBe(200)
    expect(await me(elsewhere)).toMatchObject({ person: null })
    expect(await me(shop.boss)).toMatchObject({ person: { name: OWNER.name } })
  })

  test('a changed password ends what was open with the old one, but not here', async () => {
    const shop = await aShopOf('elevated')
    const elsewhere = shop.browser()
    await elsewhere('/api/session', sending('POST', SUPERVISOR))
    const change = (password: string) =>
      shop.as('/api/me/password', sending('PUT', { password, next: 'green ladle soup' }))
    await expectProblem(await change('wrong password'), 403)
    expect((await change(SUPERVISOR.password)).status).toBe(200)
    expect(await me(elsewhere)).toMatchObject({ person: null })
    expect(await me(shop.as)).toMatchObject({ person: { name: SUPERVISOR.name } })
    await expectProblem(await elsewhere('/api/session', sending('POST', SUPERVISOR)), 403)
  })
})
