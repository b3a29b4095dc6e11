/** The real server as a process of its own, the way a shop runs it: started, killed, stopped, started again. */
import { spawn, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { createBuilder } from 'vite'
import { afterAll, beforeAll } from 'vitest'

const top = resolve(import.meta.dirname, '../..')
let bundle = ''

/** Call once in a test file: bundles the present sources as the build does. Below the top, where packages are found. */
export function bundlesServer(): void {
  beforeAll(async () => {
    bundle = mkdtempSync(join(top, 'node_modules', '.cache-server-'))
    const builder = await createBuilder({
      configFile: join(top, 'vite.config.ts'),
      logLevel: 'error',
      environments: { server: { build: { outDir: bundle } } }
    })
    const { server } = builder.environments
    if (!server) throw new Error('The build has no environment called server.')
    await builder.build(server)
  })
  afterAll(() => rmSync(bundle, { recursive: true, force: true }))
}

export interface ServerProcess {
  /** Where it says that it listens. */
  readonly url: string
  readonly child: ChildProcess
  /** As a power cut: nothing of it gets to do anything more. Resolves when it is gone. */
  kill(): Promise<void>
  /** As Ctrl+C or the system does; resolves with how it ended. */
  stop(signal?: 'SIGINT' | 'SIGTERM' | 'SIGHUP'): Promise<Ended>
}

export interface Ended {
  readonly code: number | null
  /** What it printed, both streams. */
  readonly words: string
}

interface Settings {
  readonly SIDECALL_DATA: string
  readonly PORT?: string
  readonly HOST?: string
  readonly SIDECALL_SPEECH?: 'rendered' | 'off'
}

interface Spawned {
  readonly child: ChildProcess
  readonly words: () => string
  readonly ended: Promise<Ended>
}

function spawned(settings: Settings): Spawned {
  const child = spawn(process.execPath, [join(bundle, 'main.js')], {
    cwd: top,
    env: { PATH: process.env['PATH'], PORT: '0', SIDECALL_SPEECH: 'off', ...settings },
    stdio: ['ignore', 'pipe', 'pipe']
  })
  let words = ''
  for (const stream of [child.stdout, child.stderr]) stream.setEncoding('utf8').on('data', (text) => (words += text))
  const ended = once(child, 'close').then(([code]: (number | null)[]) => ({ code: code ?? null, words }))
  return { child, words: () => words, ended }
}

/** Starts it, and fails with its own words when it ends instead. */
export async function serverProcess(settings: Settings): Promise<ServerProcess> {
  const { child, words, ended } = spawned(settings)
  const url = await new Promise<string>((ready, failed) => {
    child.stdout?.on('data', () => {
      const address = /http:\/\/\S+/.exec(words())
      // Node gives each address of a name 250 ms, which a busy machine misses.
      if (address) ready(address[0].replace('localhost', '127.0.0.1'))
    })
    void ended.then(() => failed(new Error(`The server did not start: ${words()}`)))
  })
  return {
    url,
    child,
    async kill() {
      child.kill('SIGKILL')
      await ended
    },
    async stop(signal = 'SIGTERM') {
      child.kill(signal)
      return ended
    }
  }
}

/** For a start that must fail: how it ends. */
export async function failedStart(settings: Settings): Promise<Ended> {
  const { child, words, ended } = spawned(settings)
  child.stdout?.on('data', () => {
    if (words().includes('http://')) child.kill('SIGKILL')
  })
  return ended
}
