/**
 * A speech program that is installed on this machine, espeak-ng say: text on its input, a WAV on its output. It is asked
 * for by its path; no shell has a hand in it, and nothing of it is part of Sidecall.
 */
import { spawn } from 'node:child_process'
import { soundOf } from '../../src/core/talk/clips/flite.ts'
import type { Engine } from './engine.ts'

/** About 150 words a minute, as the embedded voice is slowed down to. */
const SPANISH = ['-v', 'es-419', '-s', '150', '--stdin', '--stdout']
/** A program that hangs must not hold up the clips behind it. */
const PATIENCE_MS = 20_000
/** An hour of speech; what says more has gone wild. */
const MOST_BYTES = 160 * 1024 * 1024

export function hostVoice(program: string, asked: readonly string[] = SPANISH, patienceMs = PATIENCE_MS): Engine {
  return (text) =>
    new Promise((answer) => {
      const parts: Buffer[] = []
      let bytes = 0
      const speaker = spawn(program, asked, { stdio: ['pipe', 'pipe', 'ignore'], timeout: patienceMs })
      speaker.on('error', () => answer(null))
      speaker.stdin.on('error', () => {})
      speaker.stdout.on('data', (part: Buffer) => {
        bytes += part.length
        if (bytes > MOST_BYTES) speaker.kill()
        else parts.push(part)
      })
      speaker.on('close', (code) => answer(code === 0 ? soundOf(Buffer.concat(parts)) : null))
      speaker.stdin.end(text)
    })
}
