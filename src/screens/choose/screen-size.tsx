import { useId } from 'preact/hooks'
import { PIXELS_PER_MM } from '../../app/settings.ts'
import { Press } from '../parts/press.tsx'
import { useTexts } from '../texts.ts'
import { settingsWordsEn } from './words.en.ts'

/** Sides of a payment card, mm (ISO/IEC 7810, ID-1). */
const CARD_MM = { long: 85.6, short: 53.98 }
/** A telephone is narrower than a card is long. */
const NARROW_PX = 760
/** Where the slider stands first: a tablet of ten inches. */
const USUAL = 5.9

export interface ScreenSizeProps {
  readonly pixelsPerMm: number | null
  readonly onMeasured: (pixelsPerMm: number | null) => void
}

/** Measures the screen against a card, because no browser knows how large its pixels are. */
export function ScreenSize({ pixelsPerMm, onMeasured }: ScreenSizeProps) {
  const id = useId()
  const words = useTexts('settings', settingsWordsEn)
  const shown = pixelsPerMm ?? USUAL
  const side = innerWidth < NARROW_PX ? 'short' : 'long'
  return (
    <div class="field screen-size">
      <label for={id}>{words.screenSize}</label>
      <p id={`${id}-how`}>{words.screenSizeHow(side)}</p>
      <div class="card-bar" style={{ width: `${Math.round(CARD_MM[side] * shown)}px` }} aria-hidden="true" />
      <input
        id={id}
        type="range"
        min={PIXELS_PER_MM.least}
        max={PIXELS_PER_MM.most}
        step={0.02}
        value={shown}
        aria-describedby={`${id}-how`}
        onInput={(event) => onMeasured(event.currentTarget.valueAsNumber)}
      />
      <p>
        {pixelsPerMm === null ? words.screenSizeUnknown : words.screenSizeKnown(Math.round(innerWidth / pixelsPerMm))}
      </p>
      {pixelsPerMm !== null && <Press onPress={() => onMeasured(null)}>{words.screenSizeForget}</Press>}
    </div>
  )
}
