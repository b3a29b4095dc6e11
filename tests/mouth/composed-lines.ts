/** Lines with something open in them, as they are said: put together from clips. */
import { speakableEn } from '../../src/core/talk/spoken/english.ts'
import { wordsEn } from '../../src/core/talk/words.en.ts'

const MINUTE_MS = 60_000

export function composedLines(): readonly string[] {
  const lengths = [
    20_000,
    45_000,
    MINUTE_MS,
    80_000,
    5 * MINUTE_MS,
    12 * MINUTE_MS + 5000,
    59 * MINUTE_MS,
    95 * MINUTE_MS
  ]
  const readings = ['50 ppm', '125 ppm', '200 ppm', '43 °C', '110 °F', '7.4 pH', '-18 °C', '1250 ppm']
  const times = ['6:05 AM', '11:59 PM', '12:30 PM', '7:00 AM']
  return [
    ...lengths.map((ms) => wordsEn.time('Left', wordsEn.wait('contact'), wordsEn.duration(ms))),
    ...lengths.map((ms) => wordsEn.allWaiting('Right', wordsEn.duration(ms))),
    ...readings.map((value) => wordsEn.readBack(value)),
    ...times.map((time) => wordsEn.readyBy(time, wordsEn.duration(14 * MINUTE_MS))),
    wordsEn.badCount('Left', 9, 11)
  ].map((line) => speakableEn(line))
}
