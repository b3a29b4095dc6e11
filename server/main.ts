/** Starts the server: settings from the environment, the store, the address; stops when told to. */
import { existsSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { serve, type ServerType } from '@hono/node-server'
import { createApp } from './app.ts'
import { createLive } from './live.ts'
import { loadProcedures } from './procedures/load-procedures.ts'
import { openDatabase } from './storage/open-database.ts'
import { sqliteRecords } from './storage/sqlite-records.ts'
import { readMachine } from './time/machine-clock.ts'
import { startTrustedClock } from './time/trusted-clock.ts'

const KEEP_TIME_EVERY_MS = 10_000
const STOP_WITHIN_MS = 4000

function fail(...lines: string[]): never {
  for (const line of lines) console.error(line)
  process.exit(1)
}

const port = Number(process.env['PORT'] ?? '4180')
if (!Number.isInteger(port) || port < 0 || port > 65_535) fail(`PORT is "${process.env['PORT']}", which is no port number.`, 'Set it to a number from 1 to 65535.')
const hostname = process.env['HOST'] ?? '127.0.0.1'
const folder = resolve(process.env['SIDECALL_DATA'] ?? 'data')

/** The package's top folder, from the source as well as from the bundle. */
const top = [1, 2, 3].map((up) => resolve(dirname(fileURLToPath(import.meta.url)), ...Array<string>(up).fill('..'))).find((path) => existsSync(join(path, 'procedures'))) ?? process.cwd()

const opened = openDatabase(folder)
if (opened.kind === 'failed') fail(opened.what, opened.mend)
const records = sqliteRecords(opened.database)
const clock = await startTrustedClock(records, readMachine)
const faults = await loadProcedures(join(top, 'procedures'), records, clock.now())
for (const { file, problems } of faults) {
  for (const { line, what, mend } of problems) console.error(`procedures/${file}${line === null ? '' : `:${line}`}: ${what} ${mend}`)
}
const live = createLive()
const app = createApp({ records, faults, live, now: clock.now, pageFolder: join(top, 'dist', 'page'), log: (message) => console.error(message) })

const server: ServerType = serve({ fetch: app.fetch, port, hostname }, ({ port: taken }) => {
  console.log(`Sidecall is ready: http://${hostname === '127.0.0.1' ? 'localhost' : hostname}:${taken}`)
})
server.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EADDRINUSE') fail(`Port ${port} is in use.`, 'Stop the other program, or choose another port: PORT=4181 npm start')
  if (error.code === 'EACCES') fail(`Port ${port} may not be used by this user.`, 'Choose one above 1023: PORT=4180 npm start')
  fail(`The server cannot listen: ${error.message}`)
})
const keepTime = setInterval(() => void clock.keep(), KEEP_TIME_EVERY_MS)

let stopping = false
async function stop(): Promise<void> {
  if (stopping) return
  stopping = true
  clearInterval(keepTime)
  // Open streams and idle connections would keep the server up for ever.
  setTimeout(() => process.exit(1), STOP_WITHIN_MS).unref()
  live.end()
  await new Promise<void>((resolve) => {
    server.close(() => resolve())
    if ('closeIdleConnections' in server) server.closeIdleConnections()
  })
  await clock.keep()
  await records.close()
  process.exit(0)
}
process.on('SIGINT', () => void stop())
process.on('SIGTERM', () => void stop())
