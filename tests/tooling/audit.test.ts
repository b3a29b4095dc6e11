/** The audit of dependencies, asked of an npm that answers what a test wants. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join, resolve } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-audit-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

function audit(answer: string): { readonly code: number | null; readonly last: string; readonly words: string } {
  writeFileSync(join(folder, 'answer'), answer)
  writeFileSync(join(folder, 'npm'), `#!/bin/sh\ncat '${join(folder, 'answer')}'\nexit 1\n`, { mode: 0o755 })
  const ran = spawnSync(process.execPath, [resolve(import.meta.dirname, '../../.ci/audit.mjs')], {
    encoding: 'utf8',
    env: { PATH: `${folder}${delimiter}${process.env['PATH'] ?? ''}` }
  })
  return { code: ran.status, last: ran.stdout.trim().split('\n').at(-1) ?? '', words: ran.stdout }
}

/** The form of npm 10's report (auditReportVersion 2), from memory. */
const report = (severity: string) =>
  JSON.stringify({
    auditReportVersion: 2,
    vulnerabilities: { leaky: { name: 'leaky', severity, range: '<2.0.0' } },
    metadata: { vulnerabilities: { total: 1, [severity]: 1 } }
  })

test.each(['high', 'critical'])('a %s advisory fails, by name', (severity) => {
  expect(audit(report(severity))).toMatchObject({
    code: 1,
    last: '0 passed, 1 failed',
    words: expect.stringContaining('leaky <2.0.0')
  })
})

test('a moderate one is counted and does not', () => {
  expect(audit(report('moderate'))).toMatchObject({ code: 0, last: '1 passed, 0 failed' })
})

test.each(['', 'no json', JSON.stringify({ message: 'request to the registry failed', error: { code: 'ENOTFOUND' } })])(
  'where the registry cannot be asked, that is said, and counts neither way: %j',
  (answer) => {
    expect(audit(answer)).toMatchObject({ code: 0, last: '0 passed, 0 failed' })
  }
)
