/** The rules of the shop on this device: the server's, or those it had when it was last asked. */
import type { RulesOffered } from '../core/sanitizer/shop-rules.ts'
import type { Ports } from './ports.ts'

const LAST_RULES = 'rules-offered'

/** Null when the server is away and has never been asked. */
export async function rulesHere({ server, log }: Pick<Ports, 'server' | 'log'>): Promise<RulesOffered | null> {
  const answered = await server.rules()
  if (answered.kind === 'answered') {
    await log.keepSetting(LAST_RULES, JSON.stringify(answered.value))
    return answered.value
  }
  const kept = await log.setting(LAST_RULES)
  return kept.kind === 'kept' && kept.value !== null ? rulesIn(kept.value) : null
}

/** What cannot be read is none; the next answer replaces it. */
async function rulesIn(text: string): Promise<RulesOffered | null> {
  // The same file that the server's answer was read with.
  const { readRulesAnswer } = await import('../core/record/wire-rules.ts')
  try {
    return readRulesAnswer(JSON.parse(text))
  } catch {
    return null
  }
}
