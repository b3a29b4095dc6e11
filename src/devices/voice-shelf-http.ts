/** Practised voices on the server. Only its own word counts: what a proxy or a sign-in page answers says nothing. */
import { packedTakes, unpackedTakes, VOICE_REVISION } from '../core/ears/packed-takes.ts'
import type { Practiser } from '../ports/voice-practice.ts'
import type { VoiceShelf, VoiceThere } from '../ports/voice-shelf.ts'
import { askServer, type HttpOptions } from './ask-server.ts'

export function httpVoiceShelf(options: HttpOptions = {}): VoiceShelf {
  const ask = askServer(options)
  const addressOf = ({ operator, language }: Practiser, known: number) =>
    `/api/voices/${encodeURIComponent(operator)}?language=${encodeURIComponent(language)}&known=${known}`
  return {
    async get(who, known) {
      const answered = await ask(addressOf(who, known), readVoice)
      if (answered.kind === 'answered') return answered.value
      const status = answered.failure.kind === 'rejected' ? answered.failure.status : null
      return status === 410 ? { kind: 'forgotten' } : status === 404 ? { kind: 'none-as-new' } : 'away'
    },
    async put(who, takes, known) {
      const headers = { 'content-type': 'application/octet-stream' }
      const body = packedTakes(takes)
      const answered = await ask(addressOf(who, known), readChanged, { method: 'PUT', headers, body })
      if (answered.kind === 'answered') return { kind: 'kept', revision: answered.value }
      return answered.failure.kind === 'rejected' ? 'refused' : 'away'
    },
    async remove(who, known) {
      const answered = await ask(addressOf(who, known), readChanged, { method: 'DELETE' })
      return answered.kind === 'answered' ? { kind: 'removed', revision: answered.value } : 'away'
    }
  }
}

function readVoice(_: unknown, bytes: ArrayBuffer, headers: Headers): VoiceThere | null {
  const revision = readChanged(null, new ArrayBuffer(0), headers)
  if (revision === null) return null
  if (bytes.byteLength === 0) return { kind: 'same' }
  const takes = unpackedTakes(new Uint8Array(bytes))
  return takes && { kind: 'voice', takes, revision }
}

/** The server has nothing but the revision to say; a page that somebody else shows has more. */
function readChanged(_: unknown, { byteLength }: ArrayBuffer, headers: Headers): number | null {
  const revision = headers.get(VOICE_REVISION)
  return byteLength === 0 && revision !== null ? Number(revision) : null
}
