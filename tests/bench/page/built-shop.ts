/** The real built server in a process of its own, on a new store, with procedures of the bench beside the shipped ones. */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { cpSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { RunEvent } from '../../../src/core/run/event.ts'
import type { RunListing } from '../../../src/ports/server.ts'

const top = resolve(import.meta.dirname, '../../..')

export interface BuiltShop {
  readonly url: string
  /** What the server has kept of the run begun last. */
  latestRun(): Promise<{ readonly runId: string; readonly events: readonly RunEvent[] }>
  end(): Promise<void>
}

/** `procedures` are YAML texts by file name. */
export async function builtShop(procedures: Readonly<Record<string, string>>): Promise<BuiltShop> {
  // Plain JavaScript without types.
  const prepare = (await import(pathToFileURL(join(top, 'server/prepare.mjs')).href)) as {
    buildIfStale(): Promise<void>
  }
  await prepare.buildIfStale()
  const folder = mkdtempSync(join(tmpdir(), 'sidecall-bench-'))
  // The server looks for its procedures beside its own files, so it gets a folder of its own.
  for (const part of ['dist', 'procedures', 'package.json'])
    cpSync(join(top, part), join(folder, part), { recursive: true })
  symlinkSync(join(top, 'node_modules'), join(folder, 'node_modules'), 'dir')
  for (const [name, text] of Object.entries(procedures)) writeFileSync(join(folder, 'procedures', name), text)
  const child = spawn(process.execPath, [join(folder, 'dist/server/main.js')], {
    cwd: folder,
    env: { PATH: process.env['PATH'], PORT: '0', SIDECALL_SPEECH: 'off', SIDECALL_DATA: join(folder, 'data') },
    stdio: ['ignore', 'pipe', 'pipe']
  })
  const ended = once(child, 'close')
  let words = ''
  const url = await new Promise<string>((ready, failed) => {
    for (const stream of [child.stdout, child.stderr]) {
      stream.setEncoding('utf8').on('data', (text: string) => {
        words += text
        const [address] = /http:\/\/\S+/.exec(words) ?? []
        if (address) ready(address)
      })
    }
    void ended.then(() => failed(new Error(`The server did not start: ${words}`)))
  })
  // Said before the address: a procedure of the bench that is no good would be missing on the page.
  if (/bench-/.test(words)) throw new Error(words)

  const ask = async <T>(path: string): Promise<T> => {
    const answer = await fetch(url + path)
    if (!answer.ok) throw new Error(await answer.text())
    return (await answer.json()) as T
  }
  return {
    url,
    async latestRun() {
      const { runs } = await ask<{ readonly runs: readonly RunListing[] }>('/api/runs')
      const last = runs.toSorted((a, b) => b.startedAt - a.startedAt)[0]
      if (!last) throw new Error('The server knows of no run.')
      const { events } = await ask<{ readonly events: readonly RunEvent[] }>(`/api/runs/${last.runId}/events`)
      return { runId: last.runId, events }
    },
    async end() {
      child.kill('SIGTERM')
      await ended
      rmSync(folder, { recursive: true, force: true })
    }
  }
}
