import type { Ports } from './ports.ts'

/** The id of this device, made once and then remembered. */
export async function deviceId({ log, newId }: Pick<Ports, 'log' | 'newId'>): Promise<string> {
  const kept = await log.setting('device')
  if (kept.kind === 'kept' && kept.value !== null) return kept.value
  const id = newId()
  await log.keepSetting('device', id)
  return id
}
