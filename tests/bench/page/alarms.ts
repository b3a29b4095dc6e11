/** Alarm lateness as figures: in a visible tab, a hidden one, and with the main thread blocked. */
import { median, type Figure } from '../report.ts'
import { sampleAlarms, type AlarmSample, type Circumstance } from './alarm-lateness.ts'
import type { BuiltShop } from './built-shop.ts'
import { waitsProcedure } from './procedures.ts'

const SAMPLES = 8
const VISIBLE_BUDGET_MS = 250
const HIDDEN_BUDGET_MS = 1500

function waiting(id: string, waitSeconds: number, waits: number) {
  const title = `Bench: waits of ${waitSeconds} s`
  return { id, title, waitMs: waitSeconds * 1000, yamlText: waitsProcedure(title, id, waitSeconds, waits) }
}
export const SHORT_WAITS = waiting('bench-short-waits', 5, SAMPLES)
/** Chromium holds back a hidden page's timers to one a minute after five minutes. */
export const LONG_WAIT = waiting('bench-long-wait', 380, 1)

const HELD = {
  visible: { budget: VISIBLE_BUDGET_MS, how: 'visible tab' },
  hidden: { budget: HIDDEN_BUDGET_MS, how: 'tab behind another one' },
  blocked: { budget: VISIBLE_BUDGET_MS, how: 'main thread blocked for 4 s around the due time' }
} as const

export async function benchAlarms(shop: BuiltShop, long: boolean): Promise<readonly Figure[]> {
  const figures: Figure[] = []
  for (const circumstance of ['visible', 'hidden', 'blocked'] as const) {
    const waits = Array.from({ length: SAMPLES }, () => circumstance)
    figures.push(...told(circumstance, '', await sampleAlarms({ shop, procedure: SHORT_WAITS, waits })))
  }
  if (!long) return figures
  const samples = await sampleAlarms({ shop, procedure: LONG_WAIT, waits: ['hidden'] })
  return [...figures, ...told('hidden', `, ${LONG_WAIT.waitMs / 1000} s`, samples)]
}

function told(circumstance: Circumstance, which: string, samples: readonly AlarmSample[]): readonly Figure[] {
  const { budget, how } = HELD[circumstance]
  const unit = 'ms'
  const name = `alarm, ${circumstance}${which}`
  const sounds = samples.map(({ soundLate }) => soundLate)
  const screens = samples.map(({ screenLate }) => screenLate)
  const gaps = samples.flatMap(({ timerGaps }) => timerGaps.slice(1))
  const count = `${samples.length} waits, ${how}`
  const stillHidden = samples.filter(({ hiddenAtSound }) => hiddenAtSound).length
  const onScreen = circumstance === 'blocked' ? null : budget
  return [
    {
      name: `${name}: earliest sound`,
      value: Math.min(...sounds),
      unit,
      atMost: null,
      how: 'after due; below 0 is early'
    },
    { name: `${name}: sound`, value: median(sounds), unit, atMost: budget, how: `median of ${count}` },
    { name: `${name}: sound, worst`, value: Math.max(...sounds), unit, atMost: budget, how: count },
    { name: `${name}: screen, worst`, value: Math.max(...screens), unit, atMost: onScreen, how: 'in the document' },
    ...(circumstance === 'hidden'
      ? [
          { name: `${name}: timer gap`, value: median(gaps), unit, atMost: null, how: 'timers of 50 ms, median' },
          { name: `${name}: timer gap, worst`, value: Math.max(...gaps), unit, atMost: null, how: 'same timers' },
          {
            name: `${name}: hidden at the sound`,
            value: stillHidden,
            unit: '',
            atMost: null,
            how: `of ${samples.length}`
          }
        ]
      : [])
  ]
}
