import { useId } from 'preact/hooks'

export interface PickProps<Value extends string> {
  readonly label: string
  readonly value: Value
  readonly options: readonly (readonly [Value, string])[]
  readonly onValue: (value: Value) => void
}

/** One of many, where all in sight would be too much. */
export function Pick<Value extends string>({ label, value, options, onValue }: PickProps<Value>) {
  const id = useId()
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        onChange={({ currentTarget }) => {
          const picked = options.find(([option]) => option === currentTarget.value)
          if (picked) onValue(picked[0])
        }}
      >
        {options.map(([option, text]) => (
          <option key={option} value={option}>
            {text}
          </option>
        ))}
      </select>
    </div>
  )
}
