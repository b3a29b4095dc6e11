/** What stands above the steps: the machine, its sides, and the lists that the steps take from. */
import { useId } from 'preact/hooks'
import { idsAt, listAt, shownWords, valueAt, withWords, wordsAt } from '../../core/procedure/edit/draft-values.ts'
import { newId } from '../../core/procedure/edit/new-id.ts'
import type { Path } from '../../core/procedure/edit/edit.ts'
import { CHEMICAL_FAMILIES } from '../../core/sanitizer/chemical-order.ts'
import { Press } from '../parts/press.tsx'
import { AddByName } from './add-by-name.tsx'
import { useBegin, type Begin } from './use-begin.ts'
import { LineField, PickField, WordsField } from './draft-fields.tsx'
import { Typed } from './typed.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'
import { useDesk } from './workshop-context.ts'

const PER = ['side', 'machine'] as const

interface ListSpec {
  readonly list: 'sides' | 'tools' | 'parts' | 'supplies' | 'solutions'
  /** What a new one has besides its id and name. */
  readonly begins: (begin: Begin) => object
  readonly fields: (path: Path) => preact.ComponentChildren
}

const LISTS: readonly ListSpec[] = [
  { list: 'sides', begins: () => ({}), fields: () => null },
  { list: 'tools', begins: () => ({}), fields: (path) => <LineField path={[...path, 'count']} as="number" /> },
  {
    list: 'parts',
    begins: () => ({ per: 'side', count: 1, care: 'clean' }),
    fields: (path) => (
      <>
        <LineField path={[...path, 'count']} as="number" />
        <PickField path={[...path, 'per']} options={PER} />
        <PickField path={[...path, 'care']} options={['grease', 'dry', 'clean']} />
        <LineField path={[...path, 'replace after', 'days']} as="number" />
        <LineField path={[...path, 'replace after', 'runs']} as="number" />
      </>
    )
  },
  {
    list: 'supplies',
    begins: () => ({ amount: '1', per: 'machine' }),
    fields: (path) => (
      <>
        <WordsField path={[...path, 'amount']} />
        <PickField path={[...path, 'per']} options={PER} />
      </>
    )
  },
  {
    list: 'solutions',
    begins: (begin) => ({
      amount: '{3.8 L | 1 gal}',
      per: 'machine',
      chemical: 'other',
      directions: begin('directions')
    }),
    fields: (path) => (
      <>
        <WordsField path={[...path, 'amount']} />
        <PickField path={[...path, 'per']} options={PER} />
        <PickField path={[...path, 'chemical']} options={CHEMICAL_FAMILIES} />
        <WordsField path={[...path, 'directions']} lines={2} />
      </>
    )
  }
]

export function HeadForm() {
  const words = useWorkshopWords()
  return (
    <div class="draft-form">
      <section>
        <h2>{words.sections.procedure}</h2>
        <WordsField path={['title']} />
        <WordsField path={['summary']} lines={4} />
        <WordsField path={['machine']} />
        <WordsField path={['about the machine']} lines={4} />
        <ExampleField />
        <LanguagesField />
      </section>
      {LISTS.map((spec) => (
        <ThingList key={spec.list} {...spec} />
      ))}
    </div>
  )
}

function ExampleField() {
  const { editor, value } = useDesk()
  const words = useWorkshopWords()
  const path = ['example']
  return (
    <label class="choice-option">
      <input
        type="checkbox"
        checked={valueAt(value, path) === true}
        onChange={({ currentTarget: { checked } }) =>
          void editor.edit(checked ? { kind: 'set', path, value: true } : { kind: 'clear', path })
        }
      />
      <span>{words.fields['example']}</span>
    </label>
  )
}

function LanguagesField() {
  const id = useId()
  const { editor, value } = useDesk()
  const words = useWorkshopWords()
  const put = (text: string) => {
    const tags = text.split(/[\s,]+/).filter((tag) => tag !== '')
    return tags.length === 0 ? Promise.resolve(false) : editor.edit({ kind: 'set', path: ['languages'], value: tags })
  }
  return (
    <div class="field">
      <label for={id}>{words.fields['languages']}</label>
      <Typed id={id} value={idsAt(value, ['languages']).join(', ')} onCommit={put} describedBy={`${id}-hint`} />
      <small id={`${id}-hint`} class="draft-hint">
        {words.hints.languages}
      </small>
    </div>
  )
}

function ThingList({ list, begins, fields }: ListSpec) {
  const { editor, value, languages, reading } = useDesk()
  const words = useWorkshopWords()
  const begin = useBegin()
  const first = languages[0] ?? 'en'
  const things = listAt(value, [list])
  const ids = things.map((_, at) => wordsAt(value, [list, at, 'id']))
  return (
    <section>
      <h2>{words.sections[list]}</h2>
      {things.map((_, at) => {
        const path: Path = [list, at]
        return (
          <details key={ids[at] ?? at} class="draft-entry">
            <summary>{shownWords(value, [...path, 'name'], reading, first) || ids[at]}</summary>
            <div class="draft-entry-body">
              <WordsField path={[...path, 'name']} />
              <div class="draft-row">{fields(path)}</div>
              <Press onPress={() => void editor.edit({ kind: 'remove', list: [list], at })}>{words.remove}</Press>
            </div>
          </details>
        )
      })}
      <AddByName
        label={words.addTo[list]}
        onAdd={(name) =>
          editor.edit({
            kind: 'insert',
            list: [list],
            at: things.length,
            value: {
              id: newId(name, list.slice(0, 4), ids),
              name: withWords(undefined, reading, first, name),
              ...begins(begin)
            }
          })
        }
      />
    </section>
  )
}
