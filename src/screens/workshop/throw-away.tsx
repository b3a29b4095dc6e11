import { useState } from 'preact/hooks'
import { Press } from '../parts/press.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'

/** The one thing here that cannot be undone asks twice. */
export function ThrowAway({ onThrowAway }: { readonly onThrowAway: () => void }) {
  const words = useWorkshopWords()
  const [isAsked, setAsked] = useState(false)
  return (
    <Press onPress={() => (isAsked ? onThrowAway() : setAsked(true))}>
      {isAsked ? words.reallyThrowAway : words.throwAway}
    </Press>
  )
}
