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
const PATIENCE: Patience = { ms: 20_000, graceMs: 2000 }
/** An hour of speech; what says more has gone wild. */
const MOST_BYTES = 160 * 1024 * 1024

/** After `ms` it is asked to end; `graceMs` later it is ended. */
export interface Patience {
  readonly ms: number
  readonly graceMs: number
}

export function hostVoice(program: string, asked: readonly string[] = SPANISH, patience = PATIENCE): Engine {
  return (text) =>
    new Promise((answer) => {
      const parts: Buffer[] = []
      let bytes = 0
      const speaker = spawn(program, asked, { stdio: ['pipe', 'pipe', 'ignore'] })
      let timer = setTimeout(stop, patience.ms)
      function stop(): void {
        clearTimeout(timer)
        speaker.kill()
        timer = setTimeout(() => {
          speaker.kill('SIGKILL')
          // What it started itself may hold on to its output.
          speaker.stdout.destroy()
        }, patience.graceMs)
      }
      speaker.on('error', () => answer(null))
      speaker.stdin.on('error', () => {})
      speaker.stdout.on('data', (part: Buffer) => {
        bytes += part.length
        if (bytes <= MOST_BYTES) parts.push(part)
        else if (bytes - part.length <= MOST_BYTES) stop()
      })
      speaker.on('close', (code) => {
        clearTimeout(timer)
        answer(code === 0 && bytes <= MOST_BYTES ? soundOf(Buffer.concat(parts)) : null)
      })
      speaker.stdin.end(text)
    })
}
