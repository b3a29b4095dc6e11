/** Judges one reading from a shell. */
import { explainJudgement } from '../../src/core/sanitizer/explain-judgement.ts'
import { judge, type Judgement } from '../../src/core/sanitizer/judge.ts'
import type { AppliedLimit } from '../../src/core/sanitizer/applicable-limits.ts'
import { contactNeeded } from '../../src/core/sanitizer/contact-needed.ts'
import { implausible, type Reading } from '../../src/core/sanitizer/reading.ts'
import {
  AGENTS,
  SUBJECTS,
  type Agent,
  type Demand,
  type RuleSet,
  type Subject
} from '../../src/core/sanitizer/rule-set.ts'
import type { Temperature } from '../../src/core/sanitizer/temperature.ts'
import { sanitizerWordsEn as words } from '../../src/core/sanitizer/words.en.ts'
import { chosenLabel, chosenRules, required } from './chosen-rules.ts'
import { printed, type Outcome, type Printed } from './command.ts'
import { BadInput, readOptions, type Options } from './options.ts'

const HELP = `npm run --silent judge -- --agent chlorine|iodine|quat|hot-water [options] [--json]
  --ppm N  --temp-c N | --temp-f N  --ph N  --hardness N (mg/L)  --seconds N
  --clear yes|no                                  for --agent rinse
  --rules ID                                      us-food-code when it is left out
  --label ID | --label-ppm N  --label-max-ppm N  --label-seconds N  --label-temp-c N  --label-max-ph N  --label-max-hardness N
Other agents: hot-water-machine, cold-holding, handwash-water, wash-water, heat-treatment, rinse.
What is left out counts as not measured. Limits are inclusive. A label figure alone is a least, save for --label-max-...
Ends with 0 when the reading could be looked at (the verdict is good, out or unknown), with 2 when the input was bad.
${words.labelFirst}`

const NAMES = [
  ...['agent', 'ppm', 'temp-c', 'temp-f', 'ph', 'hardness', 'seconds', 'clear', 'rules', 'label'],
  ...['label-ppm', 'label-max-ppm', 'label-seconds', 'label-temp-c', 'label-max-ph', 'label-max-hardness']
]

export function judgeCommand(args: readonly string[]): Printed {
  return printed(args, HELP, work)
}

function work(args: readonly string[]): Outcome {
  const options = readOptions(args, NAMES, ['json'])
  const subject = required(options.oneOf('agent', SUBJECTS), 'agent')
  const reading = readingFrom(options, subject)
  const [wrong] = implausible(reading)
  if (wrong) throw new BadInput(optionOf(wrong.quantity, options), words.implausible(wrong))
  const rules = chosenRules(options)
  const label = labelFrom(options, subject)
  const judgement = judge(reading, rules, label)
  const { heading, reasons, notes, source } = explainJudgement(judgement, words)
  const needed = contactNeeded(reading, rules, label)
  return {
    json: {
      verdict: judgement.verdict,
      reasons,
      source,
      rules: judgement.decided?.ruleSet.id ?? null,
      notes,
      contactSeconds: needed?.seconds ?? null,
      out:
        judgement.verdict === 'out' ? judgement.out.map(({ applied, ...one }) => ({ ...one, ...from(applied) })) : [],
      missing: judgement.verdict === 'unknown' ? judgement.missing.map(missingFrom) : [],
      limits: judgement.limits.map((applied) => ({ ...from(applied), rows: applied.limit.rows })),
      labelFirst: words.labelFirst
    },
    lines: [heading, ...reasons, ...notes, ...(source === null ? [] : [words.from(source)]), words.labelFirst]
  }
}

function from({ ruleSet, limit }: AppliedLimit) {
  const { aspect, source, edition, status } = limit
  return { rules: ruleSet.id, aspect, source, edition, status }
}

function missingFrom(one: Extract<Judgement, { verdict: 'unknown' }>['missing'][number]) {
  if (one.kind === 'limit') return { kind: one.kind, aspect: one.aspect }
  return { kind: one.kind, quantity: one.quantity, source: one.applied.limit.source }
}

function readingFrom(options: Options, subject: Subject): Reading {
  const clear = options.oneOf('clear', ['yes', 'no'])
  return {
    subject,
    ppm: options.number('ppm'),
    temperature: temperatureFrom(options),
    ph: options.number('ph'),
    hardness: options.number('hardness'),
    seconds: options.number('seconds'),
    clear: clear === undefined ? undefined : clear === 'yes'
  }
}

function temperatureFrom(options: Options): Temperature | undefined {
  const [c, f] = [options.number('temp-c'), options.number('temp-f')]
  if (c !== undefined && f !== undefined) throw new BadInput('temp-f', 'Give --temp-c or --temp-f, not both.')
  if (c !== undefined) return { value: c, unit: 'C' }
  return f === undefined ? undefined : { value: f, unit: 'F' }
}

function optionOf(quantity: string, options: Options): string {
  if (quantity === 'temperature') return options.has('temp-c') ? 'temp-c' : 'temp-f'
  return quantity
}

/** A label on the command line is a rule set of its own. */
function labelFrom(options: Options, subject: Subject): RuleSet | null {
  const onShelf = chosenLabel(options)
  const given = NAMES.filter((name) => name.startsWith('label-') && options.has(name))
  const isAgent = (AGENTS as readonly Subject[]).includes(subject)
  if (given.length === 0 || !isAgent) return onShelf
  if (onShelf !== null) throw new BadInput('label', 'Give --label or figures of a label, not both.')
  const [ppm, maxPpm] = [positive(options, 'label-ppm'), positive(options, 'label-max-ppm')]
  if (ppm !== null && maxPpm !== null && ppm > maxPpm)
    throw new BadInput('label-max-ppm', '--label-max-ppm is below --label-ppm.')
  const temperature = options.number('label-temp-c')
  const solution: (Demand | null)[] = [
    ppm === null && maxPpm === null ? null : { quantity: 'ppm', min: ppm, max: maxPpm },
    temperature === undefined ? null : { quantity: 'temperature', C: { min: temperature, max: null }, F: null },
    atMost('ph', positive(options, 'label-max-ph')),
    atMost('hardness', positive(options, 'label-max-hardness'))
  ]
  const seconds = positive(options, 'label-seconds')
  const contact: (Demand | null)[] = [seconds === null ? null : { quantity: 'seconds', min: seconds, max: null }]
  const limits = [
    labelLimit(subject as Agent, 'solution', solution),
    labelLimit(subject as Agent, 'contact', contact)
  ].filter((limit) => limit !== null)
  return { id: 'label', kind: 'label', title: 'Label', otherwise: null, limits, duties: [], product: null }
}

function positive(options: Options, name: string): number | null {
  return options.number(name, { above: 0 }) ?? null
}

function atMost(quantity: 'ph' | 'hardness', max: number | null): Demand | null {
  return max === null ? null : { quantity, min: null, max }
}

function labelLimit(
  subject: Agent,
  aspect: 'solution' | 'contact',
  demands: readonly (Demand | null)[]
): RuleSet['limits'][number] | null {
  const row = demands.filter((demand) => demand !== null)
  if (row.length === 0) return null
  return {
    subject,
    aspect,
    rows: [row],
    labelMaySet: [],
    labelMustSet: [],
    source: 'Product label, as given here',
    edition: 'as given',
    status: 'read'
  }
}
