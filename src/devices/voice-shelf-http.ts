/** Practised voices on the server. */
import { packedTakes, unpackedTakes } from '../core/ears/packed-takes.ts'
import type { Practiser } from '../ports/voice-practice.ts'
import type { VoiceShelf } from '../ports/voice-shelf.ts'

const PATIENCE_MS = 8000

export function httpVoiceShelf(ask: typeof fetch): VoiceShelf {
  const addressOf = ({ operator, language }: Practiser) =>
    `/api/voices/${encodeURIComponent(operator)}?language=${encodeURIComponent(language)}`
  const send = async (who: Practiser, how: RequestInit): Promise<Response | null> => {
    try {
      return await ask(addressOf(who), { ...how, signal: AbortSignal.timeout(PATIENCE_MS) })
    } catch {
      return null
    }
  }
  return {
    async get(who) {
      const answer = await send(who, { method: 'GET' })
      if (answer?.status === 404) return null
      if (!answer?.ok) return 'away'
      const bytes = await answer.arrayBuffer().catch(() => null)
      return bytes === null ? 'away' : unpackedTakes(new Uint8Array(bytes))
    },
    async put(who, takes) {
      const headers = { 'content-type': 'application/octet-stream' }
      const answer = await send(who, { method: 'PUT', headers, body: packedTakes(takes) })
      return answer?.ok ? 'kept' : answer && answer.status < 500 ? 'refused' : 'away'
    },
    async remove(who) {
      return (await send(who, { method: 'DELETE' }))?.ok ? 'removed' : 'away'
    }
  }
}
