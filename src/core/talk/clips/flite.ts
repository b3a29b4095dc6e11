/** What the embedded engine is asked, and what it gives: the server and a device's worker run the same voice. */
import type { Sound } from './ima-adpcm.ts'

export const SAID_FILE = 'said.wav'
const VOICE = 'rms'
/** About 160 words a minute instead of 179. */
const STRETCH = 1.12
const WAV_HEADER_BYTES = 44

/** Command line for a text as spoken. */
export function fliteArguments(text: string, voice = VOICE, stretch = STRETCH): string[] {
  return ['flite', '-voice', voice, '--setf', `duration_stretch=${stretch}`, '-t', text, '-o', `/${SAID_FILE}`]
}

/** Flite writes the plainest WAV there is: one channel, 16 bits, a header of 44 bytes. Null when it said nothing. */
export function soundOf(bytes: Uint8Array): Sound | null {
  if (bytes.byteLength <= WAV_HEADER_BYTES) return null
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const pcm = new Int16Array((bytes.byteLength - WAV_HEADER_BYTES) >> 1)
  for (let index = 0; index < pcm.length; index += 1) pcm[index] = view.getInt16(WAV_HEADER_BYTES + index * 2, true)
  return { rate: view.getUint32(24, true), pcm }
}
