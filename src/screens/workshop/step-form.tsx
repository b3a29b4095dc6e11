/** Everything that one step says, waits for and asks. */
import { READING_KINDS, SIGNAL_WORDS, WAIT_KINDS } from '../../core/procedure/procedure.ts'
import { SUBJECT_WORDS } from '../../core/sanitizer/subject-words.ts'
import { listAt, shownWords, valueAt, wordsAt } from '../../core/procedure/edit/draft-values.ts'
import type { Edit, Path } from '../../core/procedure/edit/edit.ts'
import { Pick } from '../parts/pick.tsx'
import { Press } from '../parts/press.tsx'
import { useBegin, type Begin } from './use-begin.ts'
import { IdsField, LineField, PickField, WordsField } from './draft-fields.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'
import { stepPath, useDesk } from './workshop-context.ts'

const SUBJECTS = Object.keys(SUBJECT_WORDS) as (keyof typeof SUBJECT_WORDS)[]
const UNITS = ['ppm', 'C', 'F', 'pH']
const CHECKS = ['ask', 'read', 'count'] as const

function beginCheck(kind: (typeof CHECKS)[number], begin: Begin): object {
  switch (kind) {
    case 'ask':
      return { question: begin('question'), 'if not': [begin('again')] }
    case 'read':
      return {
        question: begin('reading'),
        reading: 'strength',
        unit: 'ppm',
        'at least': 100,
        source: begin('source'),
        'if not': [begin('mix')]
      }
    case 'count':
      return { question: begin('count'), parts: [], 'if not': [begin('missing')] }
  }
}

export function StepForm() {
  const { chosen } = useDesk()
  const words = useWorkshopWords()
  const path = stepPath(chosen)
  return (
    <div class="draft-form">
      <section>
        <h2>{words.sections.words}</h2>
        <PlaceField path={path} />
        <WordsField path={[...path, 'say']} lines={2} />
        <WordsField path={[...path, 'more']} lines={3} />
        <WordsField path={[...path, 'why']} lines={2} />
        <div class="draft-row">
          <LineField path={[...path, 'hands']} as="time" />
          <WordsField path={[...path, 'confirm']} />
        </div>
      </section>
      <Cautions path={[...path, 'cautions']} />
      <WaitSection path={path} />
      <CheckSection path={path} />
      <section>
        <h2>{words.sections.things}</h2>
        <IdsField path={[...path, 'take']} from="tools" />
        <IdsField path={[...path, 'free']} from="tools" />
        <IdsField path={[...path, 'use']} from="solutions" />
        <PickField path={[...path, 'rinse']} options={['full']} optional />
      </section>
    </div>
  )
}

function PlaceField({ path }: { readonly path: Path }) {
  const { editor, value, languages, reading } = useDesk()
  const words = useWorkshopWords()
  const first = languages[0] ?? 'en'
  const sides = listAt(value, ['sides']).map((_, at) => ({
    id: wordsAt(value, ['sides', at, 'id']),
    name: shownWords(value, ['sides', at, 'name'], reading, first)
  }))
  const on = valueAt(value, [...path, 'on'])
  const now = Array.isArray(on) ? on.join(', ') : wordsAt(value, [...path, 'on']) || 'each side'
  const options = [
    ...Object.entries(words.places),
    ...sides.map(({ id, name }) => [id, name] as const),
    // Some of many sides: written as text, and kept.
    ...(Array.isArray(on) ? [[now, now] as const] : [])
  ]
  return (
    <Pick
      label={words.fields['on'] ?? ''}
      value={now}
      options={options}
      onValue={(place) =>
        void editor.edit(
          place === 'each side'
            ? { kind: 'clear', path: [...path, 'on'] }
            : { kind: 'set', path: [...path, 'on'], value: place }
        )
      }
    />
  )
}

function Cautions({ path }: { readonly path: Path }) {
  const { editor, value } = useDesk()
  const words = useWorkshopWords()
  const begin = useBegin()
  const cautions = listAt(value, path)
  return (
    <section>
      <h2>{words.sections.cautions}</h2>
      {cautions.map((_, at) => (
        <div key={at} class="draft-entry">
          <PickField path={[...path, at, 'signal']} options={SIGNAL_WORDS} />
          <WordsField path={[...path, at, 'hazard']} lines={2} />
          <WordsField path={[...path, at, 'consequence']} lines={2} />
          <WordsField path={[...path, at, 'avoid']} lines={2} />
          <Press onPress={() => void editor.edit({ kind: 'remove', list: path, at })}>{words.remove}</Press>
        </div>
      ))}
      <Press
        onPress={() =>
          void editor.edit({
            kind: 'insert',
            list: path,
            at: cautions.length,
            value: {
              signal: 'caution',
              hazard: begin('hazard'),
              consequence: begin('consequence'),
              avoid: begin('avoid')
            }
          })
        }
      >
        {words.addTo.cautions}
      </Press>
    </section>
  )
}

function WaitSection({ path }: { readonly path: Path }) {
  const { editor, value } = useDesk()
  const words = useWorkshopWords()
  const begin = useBegin()
  const wait = [...path, 'wait']
  const kind = wordsAt(value, [...wait, 'for'])
  const choose = (next: string) => {
    if (next === '') return editor.edit({ kind: 'clear', path: wait })
    if (kind === '')
      return editor.edit({
        kind: 'set',
        path: wait,
        value: { for: next, 'at least': '1 min', source: begin('source') }
      })
    return editor.edit({ kind: 'set', path: [...wait, 'for'], value: next })
  }
  return (
    <section>
      <h2>{words.sections.wait}</h2>
      <Pick
        label={words.fields['for'] ?? ''}
        value={kind}
        options={[['', words.nothing], ...WAIT_KINDS.map((one) => [one, words.waitKinds[one]] as const)]}
        onValue={(next) => void choose(next)}
      />
      {kind !== '' && (
        <>
          <div class="draft-row">
            <LineField path={[...wait, 'at least']} as="time" />
            <LineField path={[...wait, 'at most']} as="time" />
            <SubjectField path={[...wait, 'of']} />
          </div>
          <WordsField path={[...wait, 'source']} lines={2} />
          {wordsAt(value, [...wait, 'at most']) !== '' && <Late path={wait} />}
        </>
      )}
    </section>
  )
}

function Late({ path }: { readonly path: Path }) {
  const { editor, value } = useDesk()
  const words = useWorkshopWords()
  const begin = useBegin()
  const late = [...path, 'late']
  const isThere = valueAt(value, late) !== undefined
  const steps = useStepsBefore()
  const toggle = (isOn: boolean): Edit =>
    isOn
      ? { kind: 'set', path: late, value: { say: begin('late'), redo: steps.at(-1)?.id ?? '' } }
      : { kind: 'clear', path: late }
  return (
    <>
      <label class="choice-option">
        <input
          type="checkbox"
          checked={isThere}
          onChange={({ currentTarget }) => void editor.edit(toggle(currentTarget.checked))}
        />
        <span>{words.fields['late']}</span>
      </label>
      {isThere && (
        <div class="draft-row">
          <WordsField path={[...late, 'say']} lines={2} />
          <StepPick path={[...late, 'redo']} />
        </div>
      )}
    </>
  )
}

function CheckSection({ path }: { readonly path: Path }) {
  const { editor, value } = useDesk()
  const words = useWorkshopWords()
  const begin = useBegin()
  const now = CHECKS.find((kind) => valueAt(value, [...path, kind]) !== undefined)
  const choose = (next: string) => {
    const gone = CHECKS.filter((kind) => valueAt(value, [...path, kind]) !== undefined)
    const edits: Edit[] = gone.map((kind) => ({ kind: 'clear', path: [...path, kind] }))
    if (next !== 'ask' && valueAt(value, [...path, 'again']) !== undefined)
      edits.push({ kind: 'clear', path: [...path, 'again'] })
    const kind = CHECKS.find((one) => one === next)
    if (kind) edits.push({ kind: 'set', path: [...path, kind], value: beginCheck(kind, begin) })
    return editor.edit(...edits)
  }
  const check = now === undefined ? null : [...path, now]
  return (
    <section>
      <h2>{words.sections.check}</h2>
      <Pick
        label={words.fields['check'] ?? ''}
        value={now ?? 'none'}
        options={(['none', ...CHECKS] as const).map((kind) => [kind, words.options[kind]] as const)}
        onValue={(next) => void choose(next)}
      />
      {check && <WordsField path={[...check, 'question']} lines={2} />}
      {check && now === 'ask' && (
        <>
          <PickField path={[...check, 'expect']} options={['yes', 'no']} optional />
          <Again path={[...path, 'again']} />
        </>
      )}
      {check && now === 'read' && (
        <>
          <div class="draft-row">
            <PickField path={[...check, 'reading']} options={READING_KINDS} />
            <PickField path={[...check, 'unit']} options={UNITS} />
            <SubjectField path={[...check, 'of']} />
          </div>
          <div class="draft-row">
            <LineField path={[...check, 'at least']} as="number" />
            <LineField path={[...check, 'at most']} as="number" />
          </div>
          <WordsField path={[...check, 'source']} lines={2} />
        </>
      )}
      {check && now === 'count' && (
        <>
          <IdsField path={[...check, 'parts']} from="parts" />
          <PickField path={[...check, 'going']} options={['off', 'on']} optional />
        </>
      )}
      {check && <Corrections path={[...check, 'if not']} />}
    </section>
  )
}

function Again({ path }: { readonly path: Path }) {
  const { editor, value } = useDesk()
  const words = useWorkshopWords()
  const from = wordsAt(value, [...path, 'from'])
  const steps = useStepsBefore()
  return (
    <div class="draft-row">
      <Pick
        label={words.fields['again'] ?? ''}
        value={from}
        options={[['', words.nothing], ...steps.map(({ id, say }) => [id, say] as const)]}
        onValue={(id) =>
          void editor.edit(
            id === ''
              ? { kind: 'clear', path }
              : from === ''
                ? { kind: 'set', path, value: { from: id, 'at least': 1, 'at most': 3 } }
                : { kind: 'set', path: [...path, 'from'], value: id }
          )
        }
      />
      {from !== '' && <LineField path={[...path, 'at least']} as="number" />}
      {from !== '' && <LineField path={[...path, 'at most']} as="number" />}
    </div>
  )
}

function Corrections({ path }: { readonly path: Path }) {
  const { editor, value } = useDesk()
  const words = useWorkshopWords()
  const begin = useBegin()
  const corrections = listAt(value, path)
  return (
    <div class="draft-entries">
      {corrections.map((_, at) => (
        <div key={at} class="draft-entry">
          <WordsField path={[...path, at]} label={`${words.fields['if not'] ?? ''} ${at + 1}`} lines={2} />
          <Press onPress={() => void editor.edit({ kind: 'remove', list: path, at })}>{words.remove}</Press>
        </div>
      ))}
      <Press
        onPress={() =>
          void editor.edit({ kind: 'insert', list: path, at: corrections.length, value: begin('correction') })
        }
      >
        {words.addTo['if not']}
      </Press>
    </div>
  )
}

function SubjectField({ path }: { readonly path: Path }) {
  const words = useWorkshopWords()
  const named = (option: string) => {
    const subject = SUBJECTS.find((one) => one === option)
    return subject === undefined ? option : words.options[SUBJECT_WORDS[subject]]
  }
  return <PickField path={path} options={SUBJECTS} optional named={named} />
}

function StepPick({ path }: { readonly path: Path }) {
  const steps = useStepsBefore()
  const names = new Map(steps.map(({ id, say }) => [id, say]))
  return <PickField path={path} options={[...names.keys()]} named={(id) => names.get(id) ?? id} />
}

/** Steps of this stage and those before it, up to the one that is chosen. */
function useStepsBefore(): readonly { readonly id: string; readonly say: string }[] {
  const { value, chosen, languages, reading } = useDesk()
  const first = languages[0] ?? 'en'
  return listAt(value, ['stages'])
    .slice(0, chosen.stage + 1)
    .flatMap((_, stage) =>
      listAt(value, ['stages', stage, 'steps']).flatMap((__, step) => {
        if (stage === chosen.stage && step > (chosen.step ?? 0)) return []
        const path = stepPath({ stage, step })
        const id = wordsAt(value, [...path, 'step'])
        return [{ id, say: shownWords(value, [...path, 'say'], reading, first) || id }]
      })
    )
}
