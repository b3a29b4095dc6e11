/** The records over HTTP; loaded by whoever first looks at them. */
import { readDueAnswer, readRecordsAnswer, readSignedAnswer, readTrendsAnswer } from '../core/record/wire-records.ts'
import type { RecordsLink } from '../ports/records.ts'
import { askServer, type HttpOptions } from './ask-server.ts'
import { sending } from './sending.ts'

export function recordsOverHttp(options: HttpOptions = {}): RecordsLink {
  const ask = askServer(options)
  return {
    list: () => ask('/api/records', readRecordsAnswer),
    due: (zone) => ask(`/api/due?zone=${encodeURIComponent(zone)}`, readDueAnswer),
    trends: (machine) => ask(`/api/trends?machine=${encodeURIComponent(machine)}`, readTrendsAnswer),
    sign: (runId, signing) =>
      ask(`/api/runs/${encodeURIComponent(runId)}/signatures`, readSignedAnswer, sending('POST', signing))
  }
}
