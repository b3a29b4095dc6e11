/** How worn the parts of a machine are: from the server's records, or as this device heard it last. */
import type { PartAge } from '../core/record/wear.ts'
import { readWearAnswer } from '../core/record/wire-answers.ts'
import type { Ports } from './ports.ts'

export async function agesOfParts(
  { server, log }: Pick<Ports, 'server' | 'log'>,
  machine: string
): Promise<readonly PartAge[]> {
  const key = `wear ${machine}`
  const answered = await server.wear(machine)
  if (answered.kind === 'answered') {
    await log.keepSetting(key, JSON.stringify({ parts: answered.value }))
    return answered.value
  }
  const kept = await log.setting(key)
  return kept.kind === 'kept' && kept.value !== null ? agesIn(kept.value) : []
}

/** Kept for convenience: anything unreadable is as good as nothing. */
function agesIn(text: string): readonly PartAge[] {
  try {
    return readWearAnswer(JSON.parse(text))?.parts ?? []
  } catch {
    return []
  }
}
