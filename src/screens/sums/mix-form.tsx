import { useState } from 'preact/hooks'
import type { UnitSystem } from '../../core/talk/quantities.ts'
import { measuresOf } from '../../core/sanitizer/measure.ts'
import { mixSum, type MixField, type MixFields } from '../../core/sanitizer/mix-sum.ts'
import { AGENTS, CONVENTIONS, FORMS } from '../../core/sanitizer/rule-set.ts'
import { sanitizerWordsEn } from '../../core/sanitizer/words.en.ts'
import type { RulesOffered } from '../../core/sanitizer/shop-rules.ts'
import { Choice, Field } from '../parts/field.tsx'
import { Answer } from './answer.tsx'
import { Pick } from '../parts/pick.tsx'
import { useTexts } from '../texts.ts'
import { sumsWordsEn } from './words.en.ts'

const MEASURED_AS = { liquid: 'volume', powder: 'mass', tablet: 'count' } as const

/** From what is on the label to an amount that can be measured. */
export function MixForm({ rules, units }: { readonly rules: RulesOffered; readonly units: UnitSystem }) {
  const words = useTexts('sums', sumsWordsEn)
  const about = useTexts('sanitizer', sanitizerWordsEn)
  const products = rules.shelf.filter(({ product }) => product !== null)
  const inUse = rules.chosen?.labels.find((label) => products.some(({ id }) => id === label))
  const [fields, setFields] = useState<MixFields>({
    label: inUse ?? '',
    agent: 'chlorine',
    form: 'liquid',
    percent: '',
    convention: 'unstated',
    density: '',
    target: '',
    volume: '',
    measure: '',
    rules: rules.chosen?.rules ?? 'us-food-code'
  })
  const change = (changed: Partial<MixFields>) => setFields((before) => ({ ...before, ...changed }))
  const sum = mixSum(fields, rules.shelf, units === 'us' ? 'us' : 'metric', about)
  const form = products.find(({ id }) => id === fields.label)?.product?.form ?? fields.form
  const typed = (field: MixField, label: string = words.fields[field]) => (
    <Field
      label={label}
      value={fields[field]}
      longest={40}
      {...(sum.kind === 'incomplete' && sum.asks[field] !== undefined ? { hint: sum.asks[field] } : {})}
      onValue={(value) => change({ [field]: value })}
    />
  )
  return (
    <section class="sum">
      <h2>{words.mix}</h2>
      <ul class="sum-cautions">
        {[about.gas('chlorine'), about.gas('chloramine'), ...about.mixing].map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <div class="form-fields">
        <Pick
          label={words.label}
          value={fields.label}
          options={[...products.map(({ id, title }) => [id, title] as const), ['', words.labelNone]]}
          onValue={(label) => change({ label, measure: '' })}
        />
        {fields.label === '' && (
          <>
            <Choice
              label={words.agent}
              value={fields.agent}
              options={AGENTS.map((agent) => [agent, words.agents[agent]] as const)}
              onValue={(agent) => change({ agent })}
            />
            <Choice
              label={words.form}
              value={fields.form}
              options={FORMS.map((one) => [one, words.forms[one]] as const)}
              onValue={(one) => change({ form: one, measure: '' })}
            />
            {typed('percent', fields.form === 'tablet' ? words.milligrams : words.fields.percent)}
            {fields.form === 'liquid' && (
              <Choice
                label={words.convention}
                value={fields.convention}
                options={[...CONVENTIONS, 'unstated' as const].map((one) => [one, words.conventions[one]] as const)}
                onValue={(convention) => change({ convention })}
              />
            )}
            {fields.form === 'liquid' && typed('density')}
          </>
        )}
        {typed('target')}
        {typed('volume')}
        <Pick
          label={words.measure}
          value={fields.measure}
          options={[
            ['', words.exactly],
            ...measuresOf(MEASURED_AS[form]).map((id) => [id, about.measure(id)] as const)
          ]}
          onValue={(measure) => change({ measure })}
        />
      </div>
      <Answer sum={sum} incomplete={words.incomplete.mix} tones={words.recipes} />
    </section>
  )
}
