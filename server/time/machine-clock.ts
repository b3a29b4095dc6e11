/** Reads this machine's clocks. */
import { readFileSync } from 'node:fs'
import { uptime } from 'node:os'
import type { MachineReading } from './server-time.ts'

export function readMachine(): MachineReading {
  return { bootId: bootId(), uptime: uptime(), wall: Date.now() }
}

/**
 * Linux names each boot. Elsewhere nothing does that a moved wall clock would leave alone, so every boot has the same
 * name and only a boot clock that begins again tells them apart.
 */
function bootId(): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()
  } catch {
    return 'unnamed'
  }
}
