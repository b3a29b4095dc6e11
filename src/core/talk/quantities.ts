/** Amounts written `{7.6 L | 2 gal}` in the system the operator works in. */
export type UnitSystem = 'metric' | 'us'

const AMOUNT = /\{([^{}|]+)\|([^{}|]+)\}/g

export function inUnits(text: string, system: UnitSystem): string {
  return text.replaceAll(AMOUNT, (_, metric: string, us: string) => (system === 'metric' ? metric : us).trim())
}

/** `{7.6 L | 2 gal}` as "7.6 L (2 gal)". */
export function inBothUnits(text: string): string {
  return text.replaceAll(AMOUNT, (_, metric: string, us: string) => `${metric.trim()} (${us.trim()})`)
}
