// Fails when a first visit would have to load more script than the budget. Reads what the build says it made.
import { readFileSync } from 'node:fs'
import { brotliCompressSync } from 'node:zlib'

const SCRIPT_BUDGET_BYTES = 60_000

/** The service worker: not in the way of a first visit, but fetched again with every look for a newer version. It grows with the list of the page's files. */
const WORKER_BUDGET_BYTES = 5_100

const page = new URL('../dist/page/', import.meta.url)
const built = JSON.parse(readFileSync(new URL('built-files.json', page), 'utf8'))

const entries = Object.keys(built).filter((name) => built[name].isEntry)
if (entries.length !== 1) throw new Error(`One entry was expected in built-files.json, not ${entries.length}.`)

/** The entry and all it imports before it can run, once each. */
function needed(name, seen = new Set()) {
  if (seen.has(name)) return seen
  seen.add(name)
  for (const other of built[name].imports ?? []) needed(other, seen)
  return seen
}

const compressed = (file) => brotliCompressSync(readFileSync(new URL(file, page))).length
const total = (files) => [...new Set(files)].reduce((sum, file) => sum + compressed(file), 0)

const first = [...needed(entries[0])].map((name) => built[name])
const scripts = total(first.map(({ file }) => file))
const styles = total(first.flatMap(({ css = [] }) => css))
const letters = total(first.flatMap(({ assets = [] }) => assets).filter((file) => file.endsWith('.woff2')))

console.log(
  `First load, brotli: script ${scripts} of ${SCRIPT_BUDGET_BYTES} bytes, style ${styles} bytes, letters ${letters} bytes.`
)
if (scripts === 0) throw new Error('No script was found.')
if (scripts > SCRIPT_BUDGET_BYTES) {
  console.error(
    `That is ${scripts - SCRIPT_BUDGET_BYTES} bytes of script too many: load less at first, or argue for a larger budget.`
  )
  process.exitCode = 1
}

const worker = compressed('service-worker.js')
console.log(`Service worker, brotli: ${worker} of ${WORKER_BUDGET_BYTES} bytes.`)
if (worker > WORKER_BUDGET_BYTES) process.exitCode = 1
