import { useState } from 'preact/hooks'
import { judgeSum, type JudgeFields } from '../../core/sanitizer/judge-sum.ts'
import type { Measured } from '../../core/sanitizer/reading.ts'
import { AGENTS, SUBJECTS, type Agent, type Subject } from '../../core/sanitizer/rule-set.ts'
import { sanitizerWordsEn } from '../../core/sanitizer/words.en.ts'
import type { RulesOffered } from '../../core/sanitizer/shop-rules.ts'
import { Choice, Field } from '../parts/field.tsx'
import { Answer } from './answer.tsx'
import { Pick } from '../parts/pick.tsx'
import { useTexts } from '../texts.ts'
import { sumsWordsEn } from './words.en.ts'

/** What can be measured of a subject; the rest would only be in the way. */
function measuredOf(subject: Subject): readonly Measured[] {
  if (isAgent(subject)) return ['ppm', 'temperature', 'ph', 'seconds', 'hardness']
  if (subject === 'rinse') return []
  return subject === 'hot-water' || subject === 'heat-treatment' ? ['temperature', 'seconds'] : ['temperature']
}

/** From what was measured to a verdict with the limit that decides, and its source. */
export function JudgeForm({ rules }: { readonly rules: RulesOffered }) {
  const words = useTexts('sums', sumsWordsEn)
  const about = useTexts('sanitizer', sanitizerWordsEn)
  const labelsFor = (subject: Subject) =>
    rules.shelf.filter(({ kind, limits }) => kind === 'label' && limits.some((limit) => limit.subject === subject))
  const inUse = (subject: Subject) => labelsFor(subject).find(({ id }) => rules.chosen?.labels.includes(id))?.id ?? ''
  const [fields, setFields] = useState<JudgeFields>({
    subject: 'chlorine',
    rules: rules.chosen?.rules ?? 'us-food-code',
    label: inUse('chlorine'),
    ppm: '',
    temperature: '',
    ph: '',
    hardness: '',
    seconds: '',
    clear: ''
  })
  const change = (changed: Partial<JudgeFields>) => setFields((before) => ({ ...before, ...changed }))
  const shown = measuredOf(fields.subject)
  // What stands in a field that is no longer shown must not count.
  const hidden = Object.fromEntries(
    (Object.keys(words.measured) as Measured[]).filter((one) => !shown.includes(one)).map((one) => [one, ''])
  )
  const sum = judgeSum(
    { ...fields, ...hidden, ...(fields.subject === 'rinse' ? {} : { clear: '' }) },
    rules.shelf,
    about
  )
  return (
    <section class="sum">
      <h2>{words.judge}</h2>
      <div class="form-fields">
        <Pick
          label={words.subject}
          value={fields.subject}
          options={SUBJECTS.map((subject) => [subject, about.subject(subject)] as const)}
          onValue={(subject) => change({ subject, label: inUse(subject) })}
        />
        <Pick
          label={words.rules}
          value={fields.rules}
          options={rules.shelf
            .filter(({ kind }) => kind === 'jurisdiction')
            .map(({ id, title }) => [id, title] as const)}
          onValue={(chosen) => change({ rules: chosen })}
        />
        {isAgent(fields.subject) && (
          <Pick
            label={words.labels}
            value={fields.label}
            options={[...labelsFor(fields.subject).map(({ id, title }) => [id, title] as const), ['', words.noLabel]]}
            onValue={(label) => change({ label })}
          />
        )}
        {fields.subject === 'rinse' && (
          <Choice
            label={words.clear}
            value={fields.clear}
            options={[
              ['yes', words.isClear],
              ['no', words.isNotClear]
            ]}
            onValue={(clear) => change({ clear })}
          />
        )}
        {shown.map((one) => (
          <Field
            key={one}
            label={words.measured[one]}
            value={fields[one]}
            longest={20}
            {...(sum.kind === 'incomplete' && sum.asks[one] !== undefined ? { hint: sum.asks[one] } : {})}
            onValue={(value) => change({ [one]: value })}
          />
        ))}
      </div>
      <Answer sum={sum} incomplete={words.incomplete.judge} tones={words.verdicts} />
    </section>
  )
}

function isAgent(subject: Subject): subject is Agent {
  return (AGENTS as readonly Subject[]).includes(subject)
}
