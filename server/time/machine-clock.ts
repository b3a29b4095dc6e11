/** Reads this machine's clocks. */
import { readFileSync } from 'node:fs'
import { uptime } from 'node:os'
import type { MachineReading } from './server-time.ts'

export function readMachine(): MachineReading {
  return { bootId: bootId(), uptime: uptime(), wall: Date.now() }
}

/**
 * Linux names each boot. Elsewhere they all get one name, and only an uptime that begins again tells them apart: a
 * restart taken for none makes waits longer, whereas a name made from the wall clock would change with it.
 */
function bootId(): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()
  } catch {
    return 'unnamed'
  }
}
