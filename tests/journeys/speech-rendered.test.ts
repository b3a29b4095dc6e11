/** A shop's server renders what its procedures can say, beside its other work. */
import { createHash } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { SpeechManifest } from '../../src/core/talk/clips/speech-manifest.ts'
import { bundlesServer, serverProcess } from '../helpers/server-process.ts'

bundlesServer()

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-speech-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

async function asked<T>(address: string): Promise<T> {
  return (await (await fetch(address)).json()) as T
}

/** Asks until `enough` clips are there; the test's own limit is the watchdog. */
async function manifestWith(url: string, hash: string, enough: number): Promise<SpeechManifest> {
  for (;;) {
    const manifest = await asked<SpeechManifest>(`${url}/api/speech/procedures/${hash}`)
    if (manifest.clips.length >= enough) return manifest
    await new Promise((again) => setTimeout(again, 100))
  }
}

test('clips come one after the other, are what their hash says, and are there after a new start', async () => {
  const settings = { SIDECALL_DATA: folder, SIDECALL_SPEECH: 'rendered' } as const
  const first = await serverProcess(settings)
  const { procedures } = await asked<{ procedures: { hash: string }[] }>(`${first.url}/api/procedures`)
  const hash = procedures[0]?.hash ?? ''
  const { clips, total } = await manifestWith(first.url, hash, 3)
  expect(total).toBeGreaterThan(clips.length)
  for (const clip of clips.slice(0, 3)) {
    const answer = await fetch(`${first.url}/api/speech/clips/${clip.hash}`)
    expect(answer.headers.get('content-type')).toBe('audio/wav')
    expect(answer.headers.get('cache-control')).toContain('immutable')
    const bytes = Buffer.from(await answer.arrayBuffer())
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(clip.hash)
  }
  expect((await fetch(`${first.url}/api/speech/clips/${'0'.repeat(64)}`)).status).toBe(404)
  const engine = await fetch(`${first.url}/api/speech/engine`)
  expect(engine.headers.get('content-type')).toBe('application/wasm')
  // WebAssembly core specification, 5.5: how a module begins.
  expect(Buffer.from(await engine.arrayBuffer()).subarray(0, 4)).toEqual(Buffer.from('\0asm'))
  expect((await first.stop()).code).toBe(0)

  const second = await serverProcess(settings)
  const kept = await manifestWith(second.url, hash, 3)
  expect(kept.clips.slice(0, 3)).toEqual(clips.slice(0, 3))
  expect((await second.stop()).code).toBe(0)
})

test('with speech off there are no clips, and devices are told so', async () => {
  const server = await serverProcess({ SIDECALL_DATA: folder, SIDECALL_SPEECH: 'off' })
  const { procedures } = await asked<{ procedures: { hash: string }[] }>(`${server.url}/api/procedures`)
  expect((await fetch(`${server.url}/api/speech/procedures/${procedures[0]?.hash}`)).status).toBe(404)
  expect((await server.stop()).code).toBe(0)
})
