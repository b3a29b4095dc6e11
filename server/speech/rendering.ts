/** What one voice has to render, and in which order. */
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { Voice } from './speech.ts'

const MOST_PLANS = 50

export interface Rendering {
  /** What a procedure version can say; kept, because devices ask again and again. */
  planned(hash: string, procedure: Procedure): readonly string[]
  ask(plan: readonly string[], when: 'next' | 'later'): void
  /** Renders what is missing of these before anything else; resolves when they are done, or cannot be. */
  now(spoken: readonly string[]): Promise<void>
  canSay(spoken: string): boolean
  /** All that was asked for is done, or cannot be. */
  settled(): Promise<void>
  end(): void
}

export function rendering({ plan: planOf, store, render }: Voice, log: (message: string) => void): Rendering {
  const plans = new Map<string, readonly string[]>()
  /** What cannot be said is not tried again until the next start. */
  const hopeless = new Set<string>()
  let waiting = new Set<string>()
  let working: Promise<void> | null = null
  let ended = false

  async function make(spoken: string): Promise<void> {
    const clip = await render(spoken)
    if (clip === null) {
      hopeless.add(spoken)
      return
    }
    const kept = store.keep(spoken, clip)
    if (typeof kept === 'string' && !ended) {
      log(`Spoken clips cannot be kept (${kept}). Devices use their own voice until there is room and a new start.`)
      ended = true
    }
  }

  async function work(): Promise<void> {
    for (let [spoken] = waiting; spoken !== undefined && !ended; [spoken] = waiting) {
      waiting.delete(spoken)
      await make(spoken)
    }
  }

  return {
    planned(hash, procedure) {
      const known = plans.get(hash)
      if (known) return known
      const plan = planOf(procedure)
      if (plans.size >= MOST_PLANS) plans.clear()
      plans.set(hash, plan)
      return plan
    },
    ask(plan, when) {
      const missing = plan.filter((spoken) => store.find(spoken) === null && !hopeless.has(spoken))
      waiting = new Set(when === 'next' ? [...missing, ...waiting] : [...waiting, ...missing])
      working ??= work().finally(() => {
        working = null
      })
    },
    async now(texts) {
      for (const spoken of texts) {
        if (ended) return
        if (store.find(spoken) === null && !hopeless.has(spoken)) await make(spoken)
      }
    },
    canSay: (spoken) => !hopeless.has(spoken),
    settled: async () => void (await working),
    end() {
      ended = true
    }
  }
}
