/** Pieces that any number, amount, length of time or time of day can be put together from. */

const range = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, index) => from + index)

/** `speakable` writes them out; `language` decides how times of day are written. */
export function numberPieces(language: string, speakable: (text: string) => string): readonly string[] {
  const written = [
    ...range(0, 100),
    ...range(2, 9).map((hundreds) => hundreds * 100),
    ...range(1, 9).map((thousands) => thousands * 1000),
    ...range(10, 20).map((thousands) => thousands * 1000)
  ].map(String)
  const lengths = [
    ...range(1, 59).flatMap((value) => [`${value} min`, `${value} s`]),
    ...range(1, 24).map((value) => `${value} h`),
    ...range(1, 59).map((minutes) => `${minutes} min to go`),
    '0 s'
  ]
  const [two, decimal] = [speakable('2'), speakable('2.5')]
  const point = decimal.slice(two.length, -speakable('5').length).trim()
  const units = ['ppm', '°C', '°F', 'pH'].flatMap((unit) =>
    ['1', '2'].map((amount) => speakable(`${amount} ${unit}`).slice(speakable(amount).length).trim())
  )
  const minus = speakable('-2').slice(0, -two.length).trim()
  const zeroMinutes = range(1, 9).map((minute) => speakable(`2:0${minute}`).slice(two.length).trim())
  const days = ['2:00 AM', '2:00 PM'].map((time) => speakable(time).slice(two.length).trim())
  const hundreds = language.startsWith('en') ? ['hundred', 'thousand', 'and'] : []
  return [
    ...written.map((text) => speakable(text)),
    ...lengths.map((text) => speakable(text)),
    point,
    ...units,
    minus,
    ...zeroMinutes,
    ...days,
    ...hundreds
  ]
}
