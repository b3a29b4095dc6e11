/** Reads this machine's clocks. */
import { readFileSync } from 'node:fs'
import { uptime } from 'node:os'
import type { MachineReading } from './server-time.ts'

export function readMachine(): MachineReading {
  const seconds = uptime()
  return { bootId: bootId(seconds), uptime: seconds, wall: Date.now() }
}

/** Linux names each boot. Elsewhere the boot is told by its minute, which a moved wall clock makes look like another boot. */
function bootId(seconds: number): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()
  } catch {
    return `booted ${Math.round((Date.now() - seconds * 1000) / 60_000)}`
  }
}
