/** The server over HTTP. Every failure is a value; nothing here throws. */
import {
  readEventsAnswer,
  readProceduresAnswer,
  readReceipt,
  readRunsAnswer,
  readTimeAnswer,
  readTimesAnswer,
  readWearAnswer
} from '../core/record/wire-answers.ts'
import type { ServerLink } from '../ports/server.ts'
import { askServer, type HttpOptions } from './ask-server.ts'
import { isContentOf } from './content-hash.ts'
import { inBatches, sendAll } from './send-batches.ts'

export function serverOverHttp(options: HttpOptions = {}): ServerLink {
  const ask = askServer(options)
  return {
    time: () => ask('/api/time', readTimeAnswer),
    procedures: () => ask('/api/procedures', readProceduresAnswer),
    procedure: (hash) =>
      ask(
        `/api/procedures/${encodeURIComponent(hash)}`,
        // A version never changes, so the browser's own store may answer; what is not the version asked for is refused.
        async (body, bytes) => {
          // Like that of the rules, what reads it comes with the first answer.
          const { readPublishedProcedure } = await import('../core/record/wire-procedure.ts')
          return (await isContentOf(hash, bytes)) ? readPublishedProcedure(body) : null
        },
        { cache: 'default' }
      ),
    // Few need them, so what reads them is loaded with the first answer.
    rules: () =>
      ask('/api/rules', async (body) => (await import('../core/record/wire-rules.ts')).readRulesAnswer(body)),
    async runs() {
      const answered = await ask('/api/runs', readRunsAnswer)
      return answered.kind === 'answered' ? { kind: 'answered', value: answered.value.runs } : answered
    },
    async times(procedureId) {
      const answered = await ask(`/api/times/${encodeURIComponent(procedureId)}`, readTimesAnswer)
      return answered.kind === 'answered' ? { kind: 'answered', value: answered.value.samples } : answered
    },
    async wear(machine) {
      const answered = await ask(`/api/wear?machine=${encodeURIComponent(machine)}`, readWearAnswer)
      return answered.kind === 'answered' ? { kind: 'answered', value: answered.value.parts } : answered
    },
    events: (runId, after) => ask(`/api/runs/${encodeURIComponent(runId)}/events?after=${after}`, readEventsAnswer),
    send: (events) =>
      sendAll(inBatches(events), (body) =>
        ask('/api/events', readReceipt, { method: 'POST', headers: { 'content-type': 'application/json' }, body })
      )
  }
}
