import { useStore } from '../use-store.ts'
import { useSurroundings } from '../surroundings.ts'
import { useGatherWords } from './use-gather-words.ts'

/** How much of the rendered voice is on this device; what is missing is said by the device's own. */
export function VoiceNote() {
  const gather = useGatherWords()
  const clips = useStore(useSurroundings().app.$clips)
  if (clips.kind === 'none') return null
  return <p role="status">{clips.kind === 'whole' ? gather.voiceWhole : gather.voicePart(clips.have, clips.total)}</p>
}
