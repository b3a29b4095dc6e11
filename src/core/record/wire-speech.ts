/** The shape of the list of clips as it travels. */
import * as v from 'valibot'
import type { SpeechManifest } from '../talk/clips/speech-manifest.ts'

const whole = v.pipe(v.number(), v.integer(), v.minValue(0))
const manifest = v.object({
  language: v.string(),
  total: whole,
  clips: v.array(
    v.object({
      spoken: v.string(),
      hash: v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/)),
      bytes: whole,
      ms: v.pipe(v.number(), v.minValue(0))
    })
  ),
  pronunciations: v.array(v.object({ written: v.string(), spoken: v.string() }))
})

/** Null when it is no such list. */
export function readSpeechManifest(value: unknown): SpeechManifest | null {
  const parsed = v.safeParse(manifest, value)
  return parsed.success ? parsed.output : null
}
