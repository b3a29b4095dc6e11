import type { ServerFailure } from '../ports/server.ts'

/** What the server said of a failure, in its own words; empty when it said nothing. */
export function serverSaid(failure: ServerFailure): string {
  switch (failure.kind) {
    case 'unreachable':
      return ''
    case 'not-understood':
      return failure.detail
    case 'failing':
    case 'rejected':
      return failure.detail === '' ? failure.title : `${failure.title}: ${failure.detail}`
  }
}
