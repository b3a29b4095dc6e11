import type { Guard } from '../../app/guards.ts'
import { Symbol } from '../parts/symbol.tsx'
import { useRun, useWords } from '../surroundings.ts'
import { useGuards } from './use-guards.ts'

/** With more dead than this, names alone have room; the panel says why. */
const MOST_REASONS = 2

/** Quiet while everything lives; whatever is dead gets loud. A touch tells why and how to mend it. */
export function GuardStrip() {
  const { panels } = useRun()
  const words = useWords()
  const guards = useGuards()
  const dead = guards.filter((guard) => guard.health === 'dead')
  return (
    <button
      type="button"
      class="guard-strip"
      onClick={(event) => {
        if (event.detail > 0) event.currentTarget.blur()
        panels.show({ kind: 'guards' })
      }}
    >
      <span class="guards" role="status">
        {guards.map((guard) => (
          <GuardMark key={guard.name} guard={guard} reason={dead.length <= MOST_REASONS} words={words.guards} />
        ))}
      </span>
    </button>
  )
}

interface GuardMarkProps {
  readonly guard: Guard
  readonly reason: boolean
  readonly words: ReturnType<typeof useWords>['guards']
}

function GuardMark({ guard, reason, words }: GuardMarkProps) {
  if (guard.health !== 'dead') {
    return (
      <span class={`guard ${guard.health}`}>
        {words.short(guard.name)}
        {guard.health === 'waiting' && <span class="guard-why">{words.waiting}</span>}
      </span>
    )
  }
  return (
    <span class="guard dead">
      <Symbol name="cross" />
      {words.short(guard.name)}
      {reason && <span class="guard-why">{words.why(guard.fault)}</span>}
    </span>
  )
}
