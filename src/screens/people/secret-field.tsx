import { useId, useState } from 'preact/hooks'
import { Press } from '../parts/press.tsx'
import { usePeopleWords } from './use-people-words.ts'

export interface SecretFieldProps {
  readonly label: string
  readonly value: string
  readonly onValue: (value: string) => void
  readonly autocomplete: 'current-password' | 'new-password'
  readonly hint?: string
}

/** A password, hidden until somebody wants to see what a wet finger typed. */
export function SecretField({ label, value, onValue, autocomplete, hint }: SecretFieldProps) {
  const texts = usePeopleWords()
  const id = useId()
  const [shown, setShown] = useState(false)
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <div class="secret">
        <input
          id={id}
          {...(shown ? { type: 'text' as const } : { type: 'password' as const })}
          value={value}
          maxLength={200}
          autocomplete={autocomplete}
          autocapitalize="off"
          spellcheck={false}
          aria-describedby={hint === undefined ? undefined : `${id}-hint`}
          onInput={(event) => onValue(event.currentTarget.value)}
        />
        <Press pressed={shown} onPress={() => setShown(!shown)}>
          {shown ? texts.hide : texts.show}
        </Press>
      </div>
      {hint !== undefined && (
        <p class="field-hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  )
}
