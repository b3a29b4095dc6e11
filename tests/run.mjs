// `npm test`: prepares, then runs every check and every test. The last line counts them all.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { delimiter, isAbsolute, join, relative } from 'node:path'
import { buildIfStale, installIfStale, NotReady, run, top } from '../server/prepare.mjs'

const CHROMIUMS = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'
]
const CHECKS = ['types', 'lint', 'format', 'unused', 'size']
const REPORT = join(top, 'node_modules', '.cache', 'test-report.json')

/** For a second run under another Node: only the tests that run in Node itself. */
const withoutBrowser = process.argv.includes('--without-browser')

let passed = 0
const failures = []

const chromium = await prepare()
await build()
if (!withoutBrowser) for (const check of CHECKS) await runCheck(check)
await runTests()

for (const failure of failures) console.log(`FAILED  ${failure}`)
console.log(`${passed} passed, ${failures.length} failed`)
process.exitCode = failures.length === 0 ? 0 : 1

async function prepare() {
  try {
    await installIfStale()
    return withoutBrowser ? '' : findChromium()
  } catch (error) {
    if (!(error instanceof NotReady)) throw error
    console.error(error.message)
    console.log('0 passed, 1 failed')
    process.exit(1)
  }
}

/** What does not build may still be told why by the other checks, so they run in any case. */
async function build() {
  try {
    await buildIfStale()
    passed++
  } catch (error) {
    if (!(error instanceof NotReady)) throw error
    failures.push('npm run build')
  }
}

function findChromium() {
  const asked = process.env.SIDECALL_CHROMIUM
  if (asked) {
    if (starts(asked)) return asked
    throw new NotReady(`SIDECALL_CHROMIUM is ${asked}, but that does not start.`)
  }
  const present = CHROMIUMS.map(onPath).find((program) => program && starts(program))
  if (present) return present
  if (existsSync('/etc/debian_version') && process.getuid?.() === 0) {
    console.log('Installing Chromium for the browser tests.')
    for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
      spawnSync('apt-get', args, { stdio: 'inherit', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } })
    }
    if (starts('chromium')) return onPath('chromium')
  }
  throw new NotReady(
    'The browser tests need Chromium or Chrome. Install it (on Debian: apt-get install chromium), or set SIDECALL_CHROMIUM to the path of its program.'
  )
}

/** Ubuntu has a `chromium` that only says where to get the real one, so being there is not enough. */
function starts(program) {
  return spawnSync(program, ['--version', '--no-sandbox'], { timeout: 30_000 }).status === 0
}

function onPath(program) {
  const places = process.env.PATH.split(delimiter).map((folder) => join(folder, program))
  return isAbsolute(program) ? program : places.find((place) => existsSync(place))
}

/** The same line that `npm run` would run, without waiting for npm. */
function runTool(line, show) {
  const path = join(top, 'node_modules', '.bin') + delimiter + process.env.PATH
  return run('sh', ['-c', line], { PATH: path, SIDECALL_CHROMIUM: chromium }, show)
}

function testFiles() {
  return ['src', 'server', 'tests']
    .flatMap((folder) => readdirSync(join(top, folder), { recursive: true }).map((name) => join(folder, name)))
    .filter((name) => /\.test\.tsx?$/.test(name) && !(withoutBrowser && name.startsWith(join('tests', 'browser'))))
}

async function runCheck(name) {
  const { scripts } = JSON.parse(readFileSync(join(top, 'package.json'), 'utf8'))
  const { code, words } = await runTool(scripts[`test:${name}`], 'quiet')
  console.log(`${code === 0 ? 'ok     ' : 'FAILED '} ${name}`)
  if (code === 0) passed++
  else {
    console.log(words)
    failures.push(`npm run test:${name}`)
  }
}

async function runTests() {
  rmSync(REPORT, { force: true })
  mkdirSync(join(REPORT, '..'), { recursive: true })
  const projects = withoutBrowser ? "--project '!browser*'" : ''
  const { code } = await runTool(
    `vitest run ${projects} --reporter=dot --reporter=json --outputFile.json=${REPORT}`,
    'shown'
  )
  if (!existsSync(REPORT)) return failures.push('vitest left no report')
  const files = JSON.parse(readFileSync(REPORT, 'utf8')).testResults
  for (const { name, status, message, assertionResults } of files) {
    const file = relative(top, name)
    for (const test of assertionResults) {
      // A test that was skipped, or is only planned, has not passed.
      if (test.status === 'passed') passed++
      else failures.push(`${file}: ${test.fullName} (${test.status})`)
    }
    if (assertionResults.length === 0) failures.push(`${file}: no tests (${status}) ${message}`)
  }
  const ran = new Set(files.map(({ name }) => relative(top, name)))
  for (const file of testFiles()) if (!ran.has(file)) failures.push(`${file}: belongs to no project, so it never ran`)
  if (ran.size === 0) failures.push('no tests ran')
  if (code !== 0 && failures.length === 0) failures.push('vitest failed outside of any test; see its messages above')
}
