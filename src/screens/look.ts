import type { ReadableAtom } from 'nanostores'
import type { Settings } from '../app/settings.ts'

/** Makes the page look as it is set to. Before anything is drawn: the room that words take is measured as they are drawn. */
export function lookAsSet($settings: ReadableAtom<Settings>, { dataset, style }: HTMLElement): void {
  $settings.subscribe(({ distance, look, pixelsPerMm }) => {
    dataset['distance'] = distance
    dataset['look'] = look
    if (pixelsPerMm === null) style.removeProperty('--mm')
    else style.setProperty('--mm', String(pixelsPerMm))
  })
}
