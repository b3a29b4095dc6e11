/** Tells the service worker which files the page was built into: the build of the worker follows that of the page. */
import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join, sep } from 'node:path'
import type { Plugin } from 'vite'
import type { PageVersion } from './src/devices/kept-page.ts'

const VIRTUAL = 'virtual:page-files'
/** What the page needs to start and to look like itself. Pictures for people, models and clips are not among it. */
const NEEDED = /^(index\.html|manifest\.webmanifest|icon\.svg|assets\/.*\.(js|css|woff2))$/

export function pageFilesIn(folder: string): PageVersion {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => name.split(sep).join('/'))
    .filter((name) => NEEDED.test(name))
    .sort()
    .map((name) => ({
      path: name === 'index.html' ? '/' : `/${name}`,
      integrity: `sha256-${createHash('sha256')
        .update(readFileSync(join(folder, name)))
        .digest('base64')}`
    }))
  if (!files.some(({ path }) => path === '/')) throw new Error(`${folder} has no built page.`)
  const name = createHash('sha256').update(JSON.stringify(files)).digest('hex').slice(0, 16)
  return { name, files }
}

export function pageFiles(folder: string): Plugin {
  return {
    name: 'page-files',
    resolveId: (id) => (id === VIRTUAL ? `\0${VIRTUAL}` : null),
    load: (id) => (id === `\0${VIRTUAL}` ? `export const version = ${JSON.stringify(pageFilesIn(folder))}` : null)
  }
}
