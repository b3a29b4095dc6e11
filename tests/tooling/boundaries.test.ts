/** Plants one violation per boundary beside a copy of the lint settings: a rule that has gone silent fails here. */
import { spawnSync } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'

const top = join(import.meta.dirname, '../..')

const CLEAN = {
  'src/core/run/run.ts': "import { read } from '../procedure/read.ts'\nexport const run = read\n",
  'src/core/procedure/read.ts':
    "import { parse } from 'yaml'\nimport * as v from 'valibot'\nexport const read = [parse, v]\n",
  'src/core/run/run.test.ts':
    "import { it } from 'vitest'\nimport { run } from './run.ts'\nit('runs', () => run.at(0))\n",
  'src/ports/clock.ts': "import { run } from '../core/run/run.ts'\nexport const clock = run\n",
  'src/app/app.ts':
    "import { atom } from 'nanostores'\nimport { clock } from '../ports/clock.ts'\nexport const app = atom(clock)\n",
  'src/devices/clock-browser.ts': "import { clock } from '../ports/clock.ts'\nexport const clockBrowser = clock\n",
  'src/screens/run/run-screen.ts': "import { app } from '../../app/app.ts'\nexport const screen = app\n",
  'src/main.tsx':
    "import { app } from './app/app.ts'\nimport { clockBrowser } from './devices/clock-browser.ts'\napp.set(clockBrowser)\n",
  'server/main.ts': "import { run } from '../src/core/run/run.ts'\nexport const port = [process.env['PORT'], run]\n",
  'server/app.ts': "import type { clock } from '../src/ports/clock.ts'\nexport type Clock = typeof clock\n"
}

const clock = "import type { Clock } from '../../ports/clock.ts'\nexport type Time = Clock\n"
const borrow = (from: string): string => `import { it } from '${from}'\nexport const borrowed = it\n`

const VIOLATIONS: readonly [what: string, file: string, text: string, rule: string][] = [
  ['core uses a type of a port', 'src/core/run/bad.ts', clock, 'no-restricted-imports'],
  ['core imports a device', 'src/core/run/bad.ts', borrow('../../devices/clock-browser.ts'), 'no-restricted-imports'],
  ['core imports a package', 'src/core/run/bad.ts', borrow('nanostores'), 'no-restricted-imports'],
  ['core imports valibot elsewhere', 'src/core/run/bad.ts', borrow('valibot'), 'no-restricted-imports'],
  ['core judges with valibot', 'src/core/sanitizer/bad.ts', borrow('valibot'), 'no-restricted-imports'],
  [
    'a folder below leaves the core',
    'src/core/plan/times/bad.ts',
    borrow('../../../app/app.ts'),
    'no-restricted-imports'
  ],
  [
    'core reckons days with date-fns elsewhere',
    'src/core/plan/times/bad.ts',
    borrow('date-fns'),
    'no-restricted-imports'
  ],
  ['core imports Node', 'src/core/procedure/bad.ts', borrow('node:fs'), 'no-restricted-imports'],
  ['core top imports a port', 'src/core/bad.ts', borrow('../ports/clock.ts'), 'no-restricted-imports'],
  [
    'core passes a device on',
    'src/core/run/bad.ts',
    "export * from '../../devices/clock-browser.ts'\n",
    'no-restricted-imports'
  ],
  [
    'core imports when running',
    'src/core/run/bad.ts',
    "export const late = () => import('nanostores')\n",
    'no-restricted-imports'
  ],
  ['core leaves by a detour', 'src/core/run/bad.ts', borrow('../run/../../app/app.ts'), 'no-restricted-imports'],
  ['core reads the clock', 'src/core/run/bad.ts', 'export const now = () => Date.now()\n', 'no-restricted-globals'],
  [
    'core reads the steady clock',
    'src/core/run/bad.ts',
    'export const now = () => performance.now()\n',
    'no-restricted-globals'
  ],
  ['core makes an id', 'src/core/run/bad.ts', 'export const id = () => crypto.randomUUID()\n', 'no-restricted-globals'],
  ['core throws dice', 'src/core/run/bad.ts', 'export const dice = () => Math.random()\n', 'no-restricted-properties'],
  [
    'core takes the dice along',
    'src/core/run/bad.ts',
    'const { random } = Math\nexport const dice = random\n',
    'no-restricted-properties'
  ],
  ['core prints', 'src/core/run/bad.ts', "console.log('here')\n", 'no-console'],
  ['a port imports the app', 'src/ports/bad.ts', borrow('../app/app.ts'), 'no-restricted-imports'],
  ['a port imports a package', 'src/ports/bad.ts', borrow('nanostores'), 'no-restricted-imports'],
  ['the app imports a device', 'src/app/bad.ts', borrow('../devices/clock-browser.ts'), 'no-restricted-imports'],
  [
    'a folder of the app imports a screen',
    'src/app/run/bad.ts',
    borrow('../../screens/run/run-screen.ts'),
    'no-restricted-imports'
  ],
  ['a device imports the app', 'src/devices/bad.ts', borrow('../app/app.ts'), 'no-restricted-imports'],
  [
    'a screen imports a device',
    'src/screens/run/bad.tsx',
    borrow('../../devices/clock-browser.ts'),
    'no-restricted-imports'
  ],
  ['a screen imports a port', 'src/screens/bad.tsx', borrow('../ports/clock.ts'), 'no-restricted-imports'],
  [
    'a screen imports the server',
    'src/screens/run/bad.tsx',
    borrow('../../../server/main.ts'),
    'no-restricted-imports'
  ],
  ['the page imports the server', 'src/bad.ts', borrow('../server/main.ts'), 'no-restricted-imports'],
  ['the server imports the app', 'server/bad.ts', borrow('../src/app/app.ts'), 'no-restricted-imports'],
  ['a route imports a port', 'server/routes/bad.ts', borrow('../../src/ports/clock.ts'), 'no-restricted-imports'],
  ['the server draws', 'server/routes/bad.ts', borrow('preact'), 'no-restricted-imports'],
  [
    'a route reads the environment',
    'server/routes/bad.ts',
    "export const port = process.env['PORT']\n",
    'no-process-env'
  ],
  [
    'only one test runs',
    'src/core/run/bad.test.ts',
    "import { it } from 'vitest'\nit.only('runs', () => {})\n",
    'no-focused-tests'
  ],
  [
    'a test is skipped',
    'tests/journeys/bad.test.ts',
    "import { it } from 'vitest'\nit.skip('runs', () => {})\n",
    'no-disabled-tests'
  ]
]

const folder = mkdtempSync(join(tmpdir(), 'boundaries-'))
afterAll(() => rmSync(folder, { recursive: true }))

/** Every violation gets a file of its own, so that one run of the linter tells them all apart. */
const planted = VIOLATIONS.map(([what, file, text, rule], index) => ({
  what,
  file: file.replace('bad', `bad-${index}`),
  text,
  rule
}))

/** The rules broken in each file of a tree, by file name. */
function lint(files: readonly (readonly [file: string, text: string])[]): Record<string, string[]> {
  for (const [file, text] of files) {
    mkdirSync(join(folder, dirname(file)), { recursive: true })
    writeFileSync(join(folder, file), text)
  }
  const oxlint = join(top, 'node_modules/oxlint/bin/oxlint')
  const { stdout, status } = spawnSync(process.execPath, [oxlint, '--format', 'json'], {
    cwd: folder,
    encoding: 'utf8'
  })
  const { diagnostics } = JSON.parse(stdout) as { diagnostics: { code: string; filename: string }[] }
  expect(status).toBe(diagnostics.length === 0 ? 0 : 1)
  const broken: Record<string, string[]> = {}
  for (const { code, filename } of diagnostics) (broken[filename.replaceAll('\\', '/')] ??= []).push(code)
  return broken
}

describe('folder boundaries', () => {
  cpSync(join(top, '.oxlintrc.json'), join(folder, '.oxlintrc.json'))
  let broken: Record<string, string[]> = {}

  it('let a clean tree pass', () => {
    expect(lint(Object.entries(CLEAN))).toEqual({})
  })

  it('stop every file that crosses one, and no other', () => {
    broken = lint(planted.map(({ file, text }) => [file, text] as const))
    expect(Object.keys(broken).toSorted()).toEqual(planted.map(({ file }) => file).toSorted())
  })

  it.each(planted)('$what: $rule', ({ file, rule }) => {
    expect(broken[file]?.join(' ')).toContain(`(${rule})`)
  })
})
