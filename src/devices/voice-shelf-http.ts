/** Practised voices on the server. Only its own word counts: what a proxy or a sign-in page answers says nothing. */
import { packedTakes, unpackedTakes } from '../core/ears/packed-takes.ts'
import type { Practiser } from '../ports/voice-practice.ts'
import type { VoiceShelf } from '../ports/voice-shelf.ts'
import { askServer, type HttpOptions } from './ask-server.ts'

export function httpVoiceShelf(options: HttpOptions = {}): VoiceShelf {
  const ask = askServer(options)
  const addressOf = ({ operator, language }: Practiser) =>
    `/api/voices/${encodeURIComponent(operator)}?language=${encodeURIComponent(language)}`
  /** The server has nothing to say about it; a page that somebody else shows has. */
  const done = (_: unknown, bytes: ArrayBuffer) => bytes.byteLength === 0 || null
  return {
    async get(who) {
      const answered = await ask(addressOf(who), (_, bytes) => unpackedTakes(new Uint8Array(bytes)))
      if (answered.kind === 'answered') return answered.value
      return answered.failure.kind === 'rejected' && answered.failure.status === 404 ? null : 'away'
    },
    async put(who, takes) {
      const headers = { 'content-type': 'application/octet-stream' }
      const answered = await ask(addressOf(who), done, { method: 'PUT', headers, body: packedTakes(takes) })
      if (answered.kind === 'answered') return 'kept'
      return answered.failure.kind === 'rejected' ? 'refused' : 'away'
    },
    async remove(who) {
      return (await ask(addressOf(who), done, { method: 'DELETE' })).kind === 'answered' ? 'removed' : 'away'
    }
  }
}
