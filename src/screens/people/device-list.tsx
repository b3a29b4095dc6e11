import type { PeopleDesk } from '../../app/people-desk.ts'
import { shopDateTime } from '../../app/shop-time.ts'
import type { DeviceListing } from '../../app/people-desk.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { usePeopleWords } from './use-people-words.ts'

export interface DeviceListProps {
  readonly desk: PeopleDesk
  readonly devices: readonly DeviceListing[]
  /** This browser's own; null when it is not paired. */
  readonly own: string | null
  readonly mayChange: boolean
}

export function DeviceList({ desk, devices, own, mayChange }: DeviceListProps) {
  const texts = usePeopleWords()
  const { zone } = useSurroundings()
  const language = useLanguage()
  return (
    <section class="people-part">
      <h2>{texts.devices}</h2>
      {devices.length === 0 && <p>{texts.noDevices}</p>}
      <ul class="people-rows">
        {devices.map(({ id, name, pairedAt, seenAt }) => (
          <li key={id} class="people-row" aria-label={name}>
            <div>
              <p class="people-name">{id === own ? `${name} (${texts.thisDevice})` : name}</p>
              <p>
                {texts.pairedOn(shopDateTime(pairedAt, zone, language))},{' '}
                {texts.seen(shopDateTime(seenAt, zone, language))}
              </p>
            </div>
            {mayChange && <Press onPress={() => void desk.removeDevice(id)}>{texts.remove}</Press>}
          </li>
        ))}
      </ul>
      {mayChange && <Press onPress={() => void desk.pairingCode()}>{texts.newPairingCode}</Press>}
    </section>
  )
}
