import { useId, useState } from 'preact/hooks'
import { Press } from '../parts/press.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'

export interface AddByNameProps {
  readonly label: string
  readonly onAdd: (name: string) => Promise<boolean>
}

/** Something new begins with its words; its id is made from them. */
export function AddByName({ label, onAdd }: AddByNameProps) {
  const id = useId()
  const words = useWorkshopWords()
  const [name, setName] = useState('')
  const add = () => {
    const written = name.trim()
    if (written === '') return
    setName('')
    void onAdd(written).then((taken) => (taken ? undefined : setName(written)))
  }
  return (
    <form
      class="field draft-add"
      onSubmit={(event) => {
        event.preventDefault()
        add()
      }}
    >
      <label for={id}>{label}</label>
      <span class="draft-add-row">
        <input
          id={id}
          type="text"
          autocomplete="off"
          maxLength={200}
          value={name}
          onInput={({ currentTarget }) => setName(currentTarget.value)}
        />
        <Press disabled={name.trim() === ''} onPress={add}>
          {words.add}
        </Press>
      </span>
    </form>
  )
}
