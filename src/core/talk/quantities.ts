import type { Text } from '../procedure/procedure.ts'

/** Amounts written `{7.6 L | 2 gal}` in the system the operator works in. */
export type UnitSystem = 'metric' | 'us'

const AMOUNT = /\{([^{}|]+)\|([^{}|]+)\}/g

export function inUnits(text: string, system: UnitSystem): string {
  return text.replaceAll(AMOUNT, (_, metric: string, us: string) => (system === 'metric' ? metric : us).trim())
}

/** Of a text in its languages, `{7.6 L | 2 gal}` as "7.6 L (2 gal)": whoever reads may be used to either system. */
export function textFor(text: Text, language: string): string {
  const words = text[language] ?? Object.values(text)[0] ?? ''
  return words.replaceAll(AMOUNT, (_, metric: string, us: string) => `${metric.trim()} (${us.trim()})`)
}
