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
import { sending } from './sending.ts'

export function workshopOverHttp(options: HttpOptions = {}): WorkshopLink {
  const ask = askServer(options)
  const draftAt = (id: string) => `/api/workshop/drafts/${encodeURIComponent(id)}`
  const procedureAt = (id: string) => `/api/workshop/procedures/${encodeURIComponent(id)}`
  return {
    overview: () => ask('/api/workshop', readOverview),
    draft: (id) => ask(draftAt(id), readDraftAnswer),
    save: (id, draft) => ask(draftAt(id), readSavedAnswer, sending('PUT', draft)),
    drop: (id, revision) => ask(`${draftAt(id)}?revision=${revision}`, readDone, sending('DELETE')),
    publish: (id, asked) => ask(`${draftAt(id)}/publish`, readReleased, sending('POST', asked)),
    versions: (id) => ask(`${procedureAt(id)}/versions`, readVersions),
    goBack: (id, asked) => ask(`${procedureAt(id)}/go-back`, readReleased, sending('POST', asked)),
    putAway: (id) => ask(`${procedureAt(id)}/put-away`, readDone, sending('POST', {})),
    source: (hash) => ask(`/api/workshop/versions/${encodeURIComponent(hash)}/source`, readSource)
  }
}
