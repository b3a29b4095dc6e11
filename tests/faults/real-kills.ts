/** The real thing: the built server, or Chromium with the built page, killed with SIGKILL so many times. */
import { spawnSync } from 'node:child_process'

const SUITES = {
  kills: ['journeys', 'tests/journeys/server-killed.test.ts'],
  'page-kills': ['browser', 'tests/browser/killed.test.ts']
} as const

export function realKills(kind: keyof typeof SUITES, kills: number): number {
  const [project, file] = SUITES[kind]
  const { status } = spawnSync('npx', ['vitest', 'run', '--project', project, file], {
    stdio: ['ignore', 'inherit', 'inherit'],
    env: { ...process.env, SIDECALL_KILLS: String(kills) }
  })
  return status ?? 1
}
