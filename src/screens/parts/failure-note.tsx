import { useStore } from '../use-store.ts'
import type { Failure } from '../../app/app.ts'
import { useSurroundings } from '../surroundings.ts'
import type { ScreenWords } from '../words.en.ts'
import { Press } from './press.tsx'
import { Symbol } from './symbol.tsx'

/** Something that could not be done; stays until somebody has read it. */
export function FailureNote() {
  const { app, words } = useSurroundings()
  const failure = useStore(app.$failure)
  if (!failure) return null
  return (
    <div class="failure-note" role="alert">
      <Symbol name="cross" />
      <p>{failureText(failure, words)}</p>
      <Press onPress={() => app.$failure.set(null)}>{words.close}</Press>
    </div>
  )
}

function failureText(failure: Failure, { failure: words }: ScreenWords): string {
  switch (failure.kind) {
    case 'storage':
      return words.storage(words[failure.reason])
    case 'procedure-unavailable':
      return words.procedureUnavailable
    case 'run-unreadable':
      return words.runUnreadable
  }
}
