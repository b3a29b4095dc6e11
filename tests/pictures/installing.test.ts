/** What a device needs to put the page on its home screen (W3C, Web Application Manifest). */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'

const top = join(import.meta.dirname, '../..')
const read = (path: string) => readFileSync(join(top, path), 'utf8')
const manifest = JSON.parse(read('public/manifest.webmanifest')) as {
  readonly icons: readonly {
    readonly src: string
    readonly sizes: string
    readonly type: string
    readonly purpose?: string
  }[]
  readonly theme_color: string
  readonly background_color: string
  readonly display: string
  readonly start_url: string
}
const html = read('src/index.html')

/** Width and height stand in the first chunk of a PNG (W3C, PNG, IHDR). */
function pngSize(path: string): string {
  const bytes = readFileSync(join(top, path))
  expect(bytes.subarray(1, 4).toString('latin1')).toBe('PNG')
  return `${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`
}

test('it opens as a window of its own, at the top', () => {
  expect(manifest).toMatchObject({ display: 'standalone', start_url: '/' })
  expect(html).toContain('<link rel="manifest" href="/manifest.webmanifest" />')
})

describe('icons', () => {
  test.each(manifest.icons.filter(({ type }) => type === 'image/png'))('$src is $sizes', ({ src, sizes }) => {
    expect(pngSize(`public${src}`)).toBe(sizes)
  })

  test('are of the sizes that are asked for: 192, 512, and one that may be cut to a shape', () => {
    expect(manifest.icons.map(({ sizes }) => sizes)).toEqual(expect.arrayContaining(['192x192', '512x512', 'any']))
    expect(manifest.icons.filter(({ purpose }) => purpose === 'maskable')).toHaveLength(1)
    for (const { src } of manifest.icons) expect(existsSync(join(top, 'public', src))).toBe(true)
  })

  test('the one that iOS takes is there', () => {
    const [, path] = /rel="apple-touch-icon" href="([^"]+)"/.exec(html) ?? []
    expect(pngSize(`public${path}`)).toBe('180x180')
  })
})

test('the colours around the page are those of its paper', () => {
  const papers = [...read('src/screens/colours.css').matchAll(/--paper: (#[0-9a-f]{6});/g)].map(([, paper]) => paper)
  const themes = [...html.matchAll(/name="theme-color" content="(#[0-9a-f]{6})"/g)].map(([, theme]) => theme)
  expect(themes).toEqual(papers.slice(0, 2))
  expect([manifest.theme_color, manifest.background_color]).toEqual([papers[0], papers[0]])
})
