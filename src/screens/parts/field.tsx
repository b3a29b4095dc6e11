import { useId } from 'preact/hooks'

export interface FieldProps {
  readonly label: string
  readonly value: string
  readonly onValue: (value: string) => void
  readonly hint?: string
  readonly focused?: boolean
  readonly autocomplete?: 'name' | 'organization' | 'off'
  readonly longest?: number
}

/** One line of text with its label. */
export function Field({
  label,
  value,
  onValue,
  hint,
  focused = false,
  autocomplete = 'off',
  longest = 200
}: FieldProps) {
  const id = useId()
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        value={value}
        maxLength={longest}
        autocomplete={autocomplete}
        autofocus={focused}
        aria-describedby={hint === undefined ? undefined : `${id}-hint`}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
      {hint !== undefined && (
        <p class="field-hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  )
}

export interface ChoiceProps<Value extends string> {
  readonly label: string
  readonly value: Value | null
  readonly options: readonly (readonly [Value, string])[]
  readonly onValue: (value: Value) => void
}

/** One of a few, all in sight. */
export function Choice<Value extends string>({ label, value, options, onValue }: ChoiceProps<Value>) {
  const name = useId()
  return (
    <fieldset class="choice">
      <legend>{label}</legend>
      <div class="choice-options">
        {options.map(([option, text]) => (
          <label key={option} class="choice-option">
            <input
              type="radio"
              name={name}
              value={option}
              checked={option === value}
              onChange={() => onValue(option)}
            />
            <span>{text}</span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}
