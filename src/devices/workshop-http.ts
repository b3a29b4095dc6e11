/** Procedures in the making, over HTTP; loaded by whoever first opens the workshop. */
import {
  readDone,
  readDraftAnswer,
  readOverview,
  readReleased,
  readSavedAnswer,
  readSource,
  readVersions
} from '../core/record/wire-workshop.ts'
import type { WorkshopLink } from '../ports/workshop.ts'
import { askServer, type HttpOptions } from './ask-server.ts'

export function workshopOverHttp(options: HttpOptions = {}): WorkshopLink {
  const ask = askServer(options)
  const draftAt = (id: string) => `/api/workshop/drafts/${encodeURIComponent(id)}`
  const procedureAt = (id: string) => `/api/workshop/procedures/${encodeURIComponent(id)}`
  return {
    overview: () => ask('/api/workshop', readOverview),
    draft: (id) => ask(draftAt(id), readDraftAnswer),
    save: (id, draft) => ask(draftAt(id), readSavedAnswer, sent('PUT', draft)),
    drop: (id, revision) => ask(`${draftAt(id)}?revision=${revision}`, readDone, { method: 'DELETE' }),
    publish: (id, asked) => ask(`${draftAt(id)}/publish`, readReleased, sent('POST', asked)),
    versions: (id) => ask(`${procedureAt(id)}/versions`, readVersions),
    goBack: (id, asked) => ask(`${procedureAt(id)}/go-back`, readReleased, sent('POST', asked)),
    source: (hash) => ask(`/api/workshop/versions/${encodeURIComponent(hash)}/source`, readSource)
  }
}

function sent(method: 'PUT' | 'POST', body: unknown): RequestInit {
  return { method, headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }
}
