import { createHash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { fakeCaches, type FakeCaches } from '../../tests/helpers/fake-caches.ts'
import { keptPage, type PageVersion } from './kept-page.ts'

const ORIGIN = 'https://kitchen.test'
const OLD = { '/': 'old page', '/assets/main-a.js': 'old script', '/icon.svg': 'icon' }
const NEW = { '/': 'new page', '/assets/main-b.js': 'new script', '/icon.svg': 'icon' }

type Site = Readonly<Record<string, string>>

function versionOf(name: string, site: Site): PageVersion {
  const sha = (text: string) => `sha256-${createHash('sha256').update(text).digest('base64')}`
  return { name, files: Object.entries(site).map(([path, text]) => ({ path, integrity: sha(text) })) }
}

/** A network that keeps to what Fetch says of integrity: other bytes are a network error. */
function network(site: Site) {
  const asked: string[] = []
  return {
    asked,
    async fetch(request: Request): Promise<Response> {
      const path = request.url.slice(ORIGIN.length)
      asked.push(path)
      const text = site[path]
      if (text === undefined) return new Response('not here', { status: 404 })
      const hash = `sha256-${createHash('sha256').update(text).digest('base64')}`
      if (request.integrity !== '' && request.integrity !== hash) throw new TypeError('Failed to fetch')
      return new Response(text)
    }
  }
}

function pageOver(caches: FakeCaches, name: string, wanted: Site, served: Site = wanted) {
  const { asked, fetch } = network(served)
  return { asked, page: keptPage({ version: versionOf(name, wanted), caches, fetch, origin: ORIGIN }) }
}

const get = (path: string, init: RequestInit = {}) => new Request(new URL(path, ORIGIN), init)

describe('storing', () => {
  test('keeps every file, and answers with them while the network is away', async () => {
    const caches = fakeCaches()
    await pageOver(caches, 'old', OLD).page.store()
    const away = pageOver(caches, 'old', OLD, {})
    for (const [path, text] of Object.entries(OLD)) {
      expect(await (await away.page.file(path, get(path))).text()).toBe(text)
    }
    expect(away.asked).toEqual([])
  })

  test.each([
    ['a file of another version', { ...NEW, '/': 'newer still' }],
    ['a missing file', { '/': 'new page', '/icon.svg': 'icon' }]
  ])('%s stores nothing, and the version in service stays whole', async (_, served) => {
    const caches = fakeCaches()
    await pageOver(caches, 'old', OLD).page.store()
    await expect(pageOver(caches, 'new', NEW, served).page.store()).rejects.toThrow(/fetch|404/)
    expect(await caches.keys()).toEqual(['page old'])
    expect(caches.addresses('page old')).toHaveLength(3)
  })

  test('so does a full disk', async () => {
    const caches = fakeCaches()
    caches.fill()
    await expect(pageOver(caches, 'new', NEW).page.store()).rejects.toThrow('No room')
    expect(await caches.keys()).toEqual([])
  })

  test('the same version again asks only for what is missing, and losing the network then harms nothing', async () => {
    const caches = fakeCaches()
    const first = pageOver(caches, 'old', OLD)
    await first.page.store()
    const again = pageOver(caches, 'old', OLD)
    await again.page.store()
    expect(again.asked).toEqual([])
    const grown = pageOver(caches, 'old', { ...OLD, '/more.js': 'more' }, {})
    await expect(grown.page.store()).rejects.toThrow('404')
    expect(caches.addresses('page old')).toHaveLength(3)
  })
})

test('other versions go when told, and what belongs to others stays', async () => {
  const caches = fakeCaches()
  await pageOver(caches, 'old', OLD).page.store()
  await caches.open('clips')
  const { page } = pageOver(caches, 'new', NEW)
  await page.store()
  expect(await caches.keys()).toEqual(['page old', 'clips', 'page new'])
  await page.dropOthers()
  expect(await caches.keys()).toEqual(['clips', 'page new'])
})

test('a file that the browser has lost comes from the network', async () => {
  const caches = fakeCaches()
  const { page, asked } = pageOver(caches, 'old', OLD)
  expect(await (await page.file('/', get('/'))).text()).toBe('old page')
  expect(asked).toEqual(['/'])
})

describe('what is answered', () => {
  const { page } = pageOver(fakeCaches(), 'old', OLD)
  test.each([
    ['/', '/'],
    ['/?from=home', '/'],
    ['/index.html', '/'],
    ['/assets/main-a.js', '/assets/main-a.js'],
    ['/icon.svg?v=2', '/icon.svg']
  ])('%s by %s', (asked, path) => {
    expect(page.pathFor(get(asked))).toBe(path)
  })

  test.each([
    ['the interface', get('/api/time')],
    ['what is not of the page', get('/run-screen.png')],
    ['a file of another version', get('/assets/main-b.js')],
    ['another site', new Request('https://elsewhere.test/')],
    ['a part of a file', get('/icon.svg', { headers: { range: 'bytes=0-5' } })],
    ['sending', get('/', { method: 'POST', body: 'x' })],
    ['asking without a body', get('/', { method: 'HEAD' })]
  ])('not %s', (_, request) => {
    expect(page.pathFor(request)).toBe(null)
  })
})
