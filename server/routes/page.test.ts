import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, test, vi } from 'vitest'
import { anApp } from '../../tests/helpers/an-app.ts'

const top = mkdtempSync(join(tmpdir(), 'sidecall-page-'))
const folder = join(top, 'page')
mkdirSync(join(folder, 'assets'), { recursive: true })
writeFileSync(join(top, 'secret.txt'), 'not for you')
writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Sidecall</title>')
writeFileSync(join(folder, 'service-worker.js'), 'self.x = 1')
writeFileSync(join(folder, 'assets', 'main-a1b2.js'), 'export const x = 1')
symlinkSync(folder, join(top, 'linked'))
afterAll(() => rmSync(top, { recursive: true }))

const { app } = anApp({ pageFolder: folder })

describe('the page', () => {
  test('is at the top, and is asked for again each time', async () => {
    const answer = await app.request('/')
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-type')).toBe('text/html; charset=utf-8')
    expect(answer.headers.get('cache-control')).toBe('no-cache')
    expect(answer.headers.get('content-security-policy')).toContain("default-src 'self'")
    expect(await answer.text()).toContain('<title>Sidecall</title>')
  })

  test.each(['/', '/service-worker.js'])('%s unchanged is not sent again', async (path) => {
    const etag = (await app.request(path)).headers.get('etag') ?? ''
    expect(etag).not.toBe('')
    const again = await app.request(path, { headers: { 'if-none-match': etag } })
    expect(again.status).toBe(304)
    expect(again.headers.get('cache-control')).toBe('no-cache')
    expect(await again.text()).toBe('')
  })

  test('has files named by their contents, which may be kept for ever', async () => {
    const answer = await app.request('/assets/main-a1b2.js')
    expect(answer.headers.get('content-type')).toMatch(/^text\/javascript/)
    expect(answer.headers.get('cache-control')).toBe('public, max-age=31536000, immutable')
    expect(await answer.text()).toBe('export const x = 1')
  })

  test('can be asked for without its body', async () => {
    const answer = await app.request('/assets/main-a1b2.js', { method: 'HEAD' })
    expect(answer.headers.get('content-length')).toBe('18')
    expect(await answer.text()).toBe('')
  })

  test('can be asked for in parts, as audio is', async () => {
    const answer = await app.request('/assets/main-a1b2.js', { headers: { range: 'bytes=0-5' } })
    expect(answer.status).toBe(206)
    expect(await answer.text()).toBe('export')
  })

  test('may lie behind a link', async () => {
    expect((await anApp({ pageFolder: join(top, 'linked') }).app.request('/')).status).toBe(200)
  })
})

describe('what is not the page', () => {
  test.each([
    '/nothing',
    '/assets',
    '/assets/',
    '/assets/nothing.js',
    '/secret.txt',
    '/../secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e/secret.txt',
    '/%2e%2e%2fsecret.txt',
    '/%252e%252e%252fsecret.txt',
    '/assets/..%2f..%2fsecret.txt',
    '/assets/..%5c..%5csecret.txt',
    '/assets/..\\..\\secret.txt',
    '/.%2e/secret.txt',
    '//secret.txt',
    '/%00',
    '/index.html%00.js',
    '/%c0%ae%c0%ae/secret.txt',
    `/${encodeURIComponent(join(top, 'secret.txt'))}`,
    `//${join(top, 'secret.txt')}`,
    `/${'a/'.repeat(3000)}`
  ])('is not found: %s', async (path) => {
    const answer = await app.request(path)
    expect(answer.status).toBe(404)
    expect(answer.headers.get('content-type')).toBe('application/problem+json')
    expect(await answer.text()).not.toContain('not for you')
  })

  test('is never an answer of the interface', async () => {
    expect((await app.request('/api/index.html')).status).toBe(404)
  })
})

test.each(['missing', 'assets'])('a page that is not built (%s) is said to be so, to whoever asks', async (place) => {
  const printed = vi.spyOn(console, 'error')
  const unbuilt = anApp({ pageFolder: join(folder, place) })
  const answer = await unbuilt.app.request('/')
  expect(answer.status).toBe(503)
  expect(await answer.text()).toContain('npm run build')
  expect((await unbuilt.app.request('/main.js')).status).toBe(404)
  expect((await unbuilt.app.request('/api/time')).status).toBe(200)
  expect(printed).not.toHaveBeenCalled()
  printed.mockRestore()
})
