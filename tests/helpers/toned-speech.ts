/** Clips that are there at once: a tone for each word in place of a voice, and none for zebras. The rest is the server's own. */
import { join } from 'node:path'
import { openClipStore } from '../../server/speech/clip-store.ts'
import { planIn } from '../../server/speech/plans.ts'
import { createSpeech, type Speech } from '../../server/speech/speech.ts'
import type { Records } from '../../server/storage/records.ts'
import { talkIn } from '../../src/core/talk/languages.ts'
import { packWav } from '../../src/core/talk/clips/ima-adpcm.ts'

const talk = await talkIn('en')
const RATE = 16_000
const WORD_SECONDS = 0.05

export function tonedSpeech(records: Records, folder: string): Speech {
  const store = openClipStore(join(folder, 'speech'), 'toned')
  if (typeof store === 'string') throw new Error(store)
  const render = async (spoken: string) => {
    if (/zebra/i.test(spoken)) return null
    const seconds = spoken.split(' ').length * WORD_SECONDS
    const pcm = Int16Array.from({ length: Math.round(seconds * RATE) }, (_, index) =>
      Math.round(9000 * Math.sin((2 * Math.PI * 440 * index) / RATE))
    )
    return { bytes: packWav({ rate: RATE, pcm }), ms: seconds * 1000 }
  }
  const speech = createSpeech({
    records,
    voices: [{ language: 'en', plan: planIn(talk, []), store, render }],
    pronunciations: [],
    log: console.error
  })
  void speech.renderAll()
  return speech
}
