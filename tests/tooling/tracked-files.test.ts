/** What must not be in any tracked file, and names that say nothing. */
import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { describe, expect, it } from 'vitest'

const top = join(import.meta.dirname, '../..')
/** Holds examples of what it looks for. */
const ITSELF = 'tests/tooling/tracked-files.test.ts'
const files = execFileSync('git', ['-c', 'safe.directory=*', 'ls-files', '-z'], { cwd: top, encoding: 'utf8' })
  .split('\0')
  .filter((file) => file !== '' && file !== ITSELF && existsSync(join(top, file)))

const MACHINE_PATHS = ['work', 'root', 'tmp', 'home/[a-z]+', 'Users/[A-Za-z]+'].map((name) => `/${name}/`)
const REGISTRIES = ['registry\\.', 'npmjs\\.org', 'npmmirror\\.', 'jfrog\\.', 'nexus\\.']
const FORBIDDEN = new RegExp(`(?<![\\w.}])(${MACHINE_PATHS.join('|')})|(https?:)?//[\\w.-]*(${REGISTRIES.join('|')})`)

describe('tracked files', () => {
  it('name no path of one machine and no package registry', () => {
    expect(files.length).toBeGreaterThan(50)
    const hits = files.flatMap((file) =>
      readFileSync(join(top, file), 'utf8')
        .split('\n')
        .flatMap((line, index) => (FORBIDDEN.test(line) ? [`${file}:${index + 1}`] : []))
    )
    expect(hits).toEqual([])
  })

  it.each(['cd /work/main', "'/tmp/x'", 'https://registry.example/x', '/root/.cache/x'])(
    'would be caught: %s',
    (line) => {
      expect(FORBIDDEN.test(line)).toBe(true)
    }
  )

  it.each(['../work/x', 'src/root/x', 'https://www.fda.gov/x'])('would not be caught: %s', (line) => {
    expect(FORBIDDEN.test(line)).toBe(false)
  })

  it('are named for what is in them', () => {
    const vague = /^(utils?|helpers?|types|misc|common|index)\.(ts|tsx|mjs)$/
    expect(files.filter((file) => vague.test(basename(file)))).toEqual([])
  })
})
