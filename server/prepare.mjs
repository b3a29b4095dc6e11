// What must be true before anything runs: packages installed as locked, and a build of the present sources.
// Plain JavaScript without packages, because it runs before there are any. Shared by `npm start` and `npm test`.
import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { delimiter, dirname, join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'

export const top = fileURLToPath(new URL('..', import.meta.url))

const BUILT_FROM = join(top, 'dist', 'built-from.txt')
const BUILD_INPUTS = [
  'src',
  'server',
  'public',
  'vite.config.ts',
  'vite.ear-files.ts',
  'vite.ear-models.ts',
  'vite.page-files.ts',
  'tsconfig.json',
  'package-lock.json'
]

/** Which binding runs in this Node: see storage/sqlite-engine.ts. */
const SQLITE = Number.parseInt(process.versions.node, 10) >= 22 ? 'better-sqlite3-13' : 'better-sqlite3'

/** Something a person can mend before trying again. Its message says what and how. */
export class NotReady extends Error {}

/** Runs `npm ci` when what is installed differs from package-lock.json, and compiles SQLite when this Node cannot load it. */
export async function installIfStale() {
  if (!isInstalled()) {
    console.log('Installing packages. The first time this takes a few minutes.')
    await npm(['ci', '--include=dev'])
  }
  if (!(await sqliteLoads())) {
    console.log('Compiling the database for this Node.')
    await npm(['rebuild', SQLITE])
    if (!(await sqliteLoads())) throw new NotReady(`${SQLITE} does not load in Node ${process.versions.node}.`)
  }
}

/** Builds dist/ when any input differs from what the last complete build was made of. */
export async function buildIfStale() {
  const inputs = fingerprint()
  if (existsSync(BUILT_FROM) && readFileSync(BUILT_FROM, 'utf8') === inputs) return
  console.log('Building.')
  rmSync(BUILT_FROM, { force: true })
  const vite = join(top, 'node_modules', 'vite', 'bin', 'vite.js')
  const { code } = await run(process.execPath, [vite, 'build', '--logLevel', 'warn'], { NODE_ENV: 'production' })
  if (code !== 0) throw new NotReady('The build failed; the messages above say where.')
  mkdirSync(dirname(BUILT_FROM), { recursive: true })
  writeFileSync(BUILT_FROM, inputs)
}

/** npm leaves its own account of what it installed in node_modules; it is written last, so a broken-off install has none. */
function isInstalled() {
  const account = join(top, 'node_modules', '.package-lock.json')
  if (!existsSync(account)) return false
  const wanted = JSON.parse(readFileSync(join(top, 'package-lock.json'), 'utf8')).packages
  const present = JSON.parse(readFileSync(account, 'utf8')).packages
  return Object.entries(wanted).every(
    ([place, { version, optional }]) => place === '' || (present[place] ? present[place].version === version : optional)
  )
}

async function sqliteLoads() {
  const script = `new (require('${SQLITE}'))(':memory:').close()`
  return (await run(process.execPath, ['--input-type=commonjs', '-e', script], {}, 'quiet')).code === 0
}

async function npm(args) {
  // Run by npm itself we use that npm; started by hand, the one on the path. Scripts it runs must find this Node first.
  const own = process.env.npm_execpath
  const path = { PATH: dirname(process.execPath) + delimiter + process.env.PATH }
  const { code, words } = own
    ? await run(process.execPath, [own, ...args], path)
    : await run(process.platform === 'win32' ? 'npm.cmd' : 'npm', args, path)
  if (code !== 0) throw new NotReady(whyNpmFailed(words))
}

function whyNpmFailed(words) {
  if (/spawn npm\S* ENOENT/.test(words)) return 'npm was not found. It comes with Node; install both.'
  if (/gyp ERR!/.test(words)) {
    return 'better-sqlite3 could not be compiled. It needs python3, make and a C++ compiler (on Debian or Ubuntu: apt-get install python3 make g++), and Node headers, which are fetched from the network unless npm is told where they are (npm_config_nodedir).'
  }
  if (/ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|ENOTCACHED/.test(words)) {
    return 'The packages could not be fetched: no network, or no way to the package registry. Sidecall needs it once, for installing; afterwards it starts without.'
  }
  if (/ENOSPC/.test(words)) return 'The disk is full.'
  if (/EACCES|EPERM/.test(words)) return `Installing needs the right to write in ${top}.`
  return 'The packages could not be installed; the messages above say why.'
}

/** Runs to the end and gives the exit code and all that was said; 'shown' also shows it as it comes. */
export function run(command, args, environment = {}, show = 'shown') {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: top,
      env: { ...process.env, ...environment },
      shell: command.endsWith('.cmd'),
      stdio: ['ignore', 'pipe', 'pipe']
    })
    let words = ''
    let stoppedBy = null
    const stop = (signal) => {
      stoppedBy = signal
      child.kill(signal)
    }
    const signals = ['SIGINT', 'SIGTERM', 'SIGHUP']
    for (const signal of signals) process.on(signal, stop)
    const end = (code) => {
      for (const signal of signals) process.off(signal, stop)
      // With our listeners gone the signal now ends this process too, as whoever sent it expects.
      if (stoppedBy) process.kill(process.pid, stoppedBy)
      else resolve({ code, words })
    }
    const hear = (stream) => (chunk) => {
      words += chunk
      if (show === 'shown') stream.write(chunk)
    }
    child.stdout.on('data', hear(process.stdout))
    child.stderr.on('data', hear(process.stderr))
    child.on('error', (error) => {
      words += String(error)
      end(1)
    })
    child.on('close', (code) => end(code ?? 1))
  })
}

/** One hash over names and contents of everything the build reads. Tests are no part of it. */
function fingerprint() {
  const hash = createHash('sha256')
  for (const file of BUILD_INPUTS.flatMap(filesUnder).toSorted((a, b) => (a < b ? -1 : 1))) {
    hash
      .update(file)
      .update('\0')
      .update(readFileSync(join(top, file)))
      .update('\0')
  }
  return hash.digest('hex')
}

function filesUnder(input) {
  const path = join(top, input)
  if (!existsSync(path)) return []
  if (statSync(path).isFile()) return [input]
  return readdirSync(path, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && !/\.test\.tsx?$/.test(entry.name))
    .map((entry) => relative(top, join(entry.parentPath, entry.name)))
}
