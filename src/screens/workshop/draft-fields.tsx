/** Fields that show one place of the draft and write it. */
import { useId } from 'preact/hooks'
import {
  idsAt,
  listAt,
  shownWords,
  valueAt,
  wordsAt,
  wordsEdit,
  wordsIn
} from '../../core/procedure/edit/draft-values.ts'
import type { DraftFinding } from '../../core/procedure/draft/check-draft.ts'
import type { Path } from '../../core/procedure/edit/edit.ts'
import { Pick } from '../parts/pick.tsx'
import { optionName } from './option-name.ts'
import { Typed } from './typed.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'
import { isBelow, useDesk } from './workshop-context.ts'

interface AtPath {
  readonly path: Path
  readonly label?: string
}

function useLabel({ path, label }: AtPath): string {
  const words = useWorkshopWords()
  const key = String(path.at(-1))
  return label ?? words.fields[key] ?? key
}

function useFault(path: Path): DraftFinding | null {
  const { findings } = useDesk()
  return findings.find((finding) => finding.path.length > 0 && isBelow(finding.path, path)) ?? null
}

function Fault({ id, fault }: { readonly id: string; readonly fault: DraftFinding | null }) {
  return fault === null ? null : (
    <p class={`draft-fault ${fault.weight}`} id={id}>
      {fault.what}
    </p>
  )
}

/** A text in every language of the procedure, side by side. */
export function WordsField({ path, label, lines = 1 }: AtPath & { readonly lines?: number }) {
  const id = useId()
  const { editor, value, languages } = useDesk()
  const words = useWorkshopWords()
  const fault = useFault(path)
  const name = useLabel({ path, ...(label === undefined ? {} : { label }) })
  const first = languages[0] ?? 'en'
  const put = (language: string) => (text: string) => {
    const edit = wordsEdit(value, path, language, first, text)
    return edit ? editor.edit(edit) : Promise.resolve(true)
  }
  return (
    <div class="draft-words" style={{ '--languages': languages.length }}>
      {languages.map((language) => (
        <div key={language} class="field">
          <label for={`${id}-${language}`}>
            {name}
            {languages.length > 1 && <small> ({words.language(language)})</small>}
          </label>
          <Typed
            id={`${id}-${language}`}
            value={wordsIn(value, path, language, first)}
            onCommit={put(language)}
            lines={lines}
            language={language}
            invalid={fault?.weight === 'error'}
            describedBy={fault === null ? undefined : `${id}-fault`}
          />
        </div>
      ))}
      <Fault id={`${id}-fault`} fault={fault} />
    </div>
  )
}

/** A time, an amount or a number, on one line. */
export function LineField({ path, label, as = 'words' }: AtPath & { readonly as?: 'words' | 'time' | 'number' }) {
  const id = useId()
  const { editor, value } = useDesk()
  const words = useWorkshopWords()
  const fault = useFault(path)
  const put = (text: string) => {
    if (text === '')
      return valueAt(value, path) === undefined ? Promise.resolve(true) : editor.edit({ kind: 'clear', path })
    const written = as === 'number' && /^-?\d+([.,]\d+)?$/.test(text) ? Number(text.replace(',', '.')) : text
    return editor.edit({ kind: 'set', path, value: written })
  }
  return (
    <div class="field">
      <label for={id}>{useLabel({ path, ...(label === undefined ? {} : { label }) })}</label>
      <Typed
        id={id}
        value={wordsAt(value, path)}
        onCommit={put}
        numeric={as === 'number'}
        invalid={fault?.weight === 'error'}
        describedBy={fault === null ? (as === 'time' ? `${id}-hint` : undefined) : `${id}-fault`}
      />
      {as === 'time' && fault === null && (
        <small id={`${id}-hint`} class="draft-hint">
          {words.hints.time}
        </small>
      )}
      <Fault id={`${id}-fault`} fault={fault} />
    </div>
  )
}

export interface PickFieldProps extends AtPath {
  readonly options: readonly string[]
  /** Offers to leave it out. */
  readonly optional?: boolean
  /** What an option is called; the words of the workshop know the rest. */
  readonly named?: (option: string) => string
}

export function PickField({ path, label, options, optional = false, named }: PickFieldProps) {
  const { editor, value } = useDesk()
  const words = useWorkshopWords()
  const now = wordsAt(value, path)
  const all = [...(optional ? [''] : []), ...options, ...(now === '' || options.includes(now) ? [] : [now])]
  const name = (option: string) =>
    option === '' ? words.nothing : (named?.(option) ?? optionName(words.options, option))
  return (
    <Pick
      label={useLabel({ path, ...(label === undefined ? {} : { label }) })}
      value={now}
      options={(all.includes(now) ? all : ['', ...all]).map((option) => [option, name(option)] as const)}
      onValue={(option) =>
        void editor.edit(option === '' ? { kind: 'clear', path } : { kind: 'set', path, value: option })
      }
    />
  )
}

/** Some of the things of a list, by name. */
export function IdsField({ path, label, from }: AtPath & { readonly from: 'tools' | 'parts' | 'solutions' }) {
  const { editor, value, languages, reading } = useDesk()
  const first = languages[0] ?? 'en'
  const chosen = idsAt(value, path)
  const things = listAt(value, [from]).map((_, at) => ({
    id: wordsAt(value, [from, at, 'id']),
    name: shownWords(value, [from, at, 'name'], reading, first)
  }))
  const name = useLabel({ path, ...(label === undefined ? {} : { label }) })
  if (things.length === 0) return null
  const toggle = (id: string, isOn: boolean) => {
    const ids = isOn ? [...chosen, id] : chosen.filter((one) => one !== id)
    void editor.edit(ids.length === 0 ? { kind: 'clear', path } : { kind: 'set', path, value: ids })
  }
  return (
    <fieldset class="choice">
      <legend>{name}</legend>
      <div class="choice-options draft-ids">
        {things.map(({ id, name: called }) => (
          <label key={id} class="choice-option">
            <input
              type="checkbox"
              checked={chosen.includes(id)}
              onChange={({ currentTarget }) => toggle(id, currentTarget.checked)}
            />
            <span>{called || id}</span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}
