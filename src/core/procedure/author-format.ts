/**
 * The shape of a procedure file as its author writes it. The JSON Schema in procedures/ is made from this,
 * so the descriptions here are what an author's editor shows.
 */
import * as v from 'valibot'
import { DURATION_PATTERN } from './duration.ts'
import { CHEMICAL_FAMILIES } from '../sanitizer/chemical-order.ts'
import { SUBJECT_WORDS } from '../sanitizer/subject-words.ts'
import { READING_KINDS, SIGNAL_WORDS, WAIT_KINDS } from './procedure.ts'

const described = <T extends v.GenericSchema>(schema: T, words: string) => v.pipe(schema, v.description(words))

/** What to write instead, for the author: the messages of strings, patterns and unions are read by explain-shape. */
const AN_ID = 'a short name in small letters, digits and hyphens that starts with a letter, such as rinse-cool'
const A_LANGUAGE = 'a language tag such as en or es'
const A_TIME = 'a time such as 20 s, 5 min or 1 h 30 min'
const A_PLACE = 'each side, bench, whole machine, the id of a side, or a list of ids of sides'

const idMeaning = (words: string) =>
  v.pipe(
    v.string(words),
    v.regex(/^[a-z][a-z0-9-]{0,63}$/, words),
    v.description('A short name in small letters, digits and hyphens, such as rinse-cool.')
  )
const id = idMeaning(AN_ID)
const language = v.pipe(v.string(A_LANGUAGE), v.regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, A_LANGUAGE))
const words = v.pipe(v.string('words'), v.trim(), v.minLength(1), v.maxLength(600))
const text = described(
  v.union([words, v.pipe(v.record(language, words), v.minEntries(1))], 'words, or one entry a language'),
  'Words in the first language, or one entry a language. Amounts in both systems: {7.6 L | 2 gal}.'
)
const duration = v.pipe(
  v.string(A_TIME),
  v.regex(DURATION_PATTERN, A_TIME),
  v.description('A time such as 20 s, 5 min or 1 h 30 min.')
)
const whole = (least: number, most: number) => v.pipe(v.number(), v.integer(), v.minValue(least), v.maxValue(most))
const idsMeaning = (words: string) => v.pipe(v.array(idMeaning(words)), v.minLength(1), v.maxLength(100))
const ids = idsMeaning(AN_ID)
const corrections = described(
  v.pipe(v.array(text), v.minLength(1), v.maxLength(12)),
  'What the operator may do when the answer is bad; the lane stops until one is done and the answer is good. With again, only after the last round allowed.'
)

const subject = v.picklist(Object.keys(SUBJECT_WORDS) as [keyof typeof SUBJECT_WORDS])

const caution = v.strictObject({
  signal: described(v.picklist(SIGNAL_WORDS), 'ANSI Z535.4 signal word: danger, warning, caution or notice.'),
  hazard: described(text, 'What can hurt.'),
  consequence: described(text, 'What it does to you.'),
  avoid: described(text, 'How to keep clear of it.')
})

const wait = v.strictObject({
  for: described(v.picklist(WAIT_KINDS), 'What the time is for.'),
  'at least': described(duration, 'The shortest time allowed. Nobody can cut it.'),
  'at most': v.optional(described(duration, 'The longest time allowed, where one matters.')),
  of: v.optional(described(subject, 'With contact: of what. The rules of the shop may then make it longer.')),
  source: described(text, 'Where the time comes from, such as the product label.'),
  late: v.optional(
    v.strictObject({
      say: described(text, 'What to do when the longest time has passed.'),
      redo: described(id, 'The step of this lane to go back to.')
    })
  )
})

const wear = v.strictObject({ days: v.optional(whole(1, 3650)), runs: v.optional(whole(1, 10_000)) })

const ask = v.strictObject({
  question: text,
  expect: v.optional(v.picklist(['yes', 'no'])),
  'if not': v.optional(corrections)
})

const read = v.strictObject({
  question: text,
  reading: described(v.picklist(READING_KINDS), 'What is measured.'),
  of: v.optional(described(subject, 'Of what. The reading is then held to the rules of the shop too.')),
  unit: described(v.picklist(['ppm', 'C', 'F', 'pH']), 'The unit the operator reads off.'),
  'at least': v.optional(v.number()),
  'at most': v.optional(v.number()),
  source: described(text, 'Where the limits come from; shown beside them.'),
  'if not': corrections
})

const count = v.strictObject({
  question: text,
  parts: described(ids, 'The parts that must all be there; the expected number is worked out from the parts list.'),
  going: v.optional(
    described(v.picklist(['off', 'on']), 'Whether the parts have come off the machine, or have gone on again.')
  ),
  'if not': corrections
})

const step = v.strictObject({
  step: id,
  on: v.optional(
    described(
      v.union(
        [v.picklist(['each side', 'bench', 'whole machine']), idMeaning(A_PLACE), idsMeaning('the id of a side')],
        A_PLACE
      ),
      'Where it happens: each side (the default), bench, whole machine, or the ids of some sides. At a whole-machine step every lane stops.'
    )
  ),
  say: described(text, 'The spoken headline: a verb first, one action, about twelve words at most.'),
  more: v.optional(described(text, 'Detail, spoken on request.')),
  why: v.optional(described(text, 'The reason, spoken on request.')),
  hands: described(duration, 'How long the hands are busy, about.'),
  cautions: v.optional(described(v.pipe(v.array(caution), v.minLength(1), v.maxLength(8)), 'Spoken before the step.')),
  confirm: v.optional(
    described(
      text,
      'A whole phrase to say (or a key to hold) instead of the everyday word, for steps near moving parts.'
    )
  ),
  wait: v.optional(described(wait, 'Time that must pass on this lane after the step.')),
  ask: v.optional(described(ask, 'A yes-or-no question that ends the step.')),
  read: v.optional(described(read, 'A measured value that ends the step.')),
  count: v.optional(described(count, 'A count of parts that ends the step.')),
  again: v.optional(
    described(
      v.strictObject({ from: id, 'at least': v.optional(whole(1, 50)), 'at most': whole(1, 50) }),
      'With ask: go back to an earlier step of this lane until the answer is good.'
    )
  ),
  use: v.optional(described(ids, 'The solutions that come onto this place, or into its sink, with this step.')),
  rinse: v.optional(
    described(
      v.picklist(['full']),
      'At the end of this step, all that was used here is rinsed off with drinking water.'
    )
  ),
  take: v.optional(described(ids, 'Tools this lane holds from here on.')),
  free: v.optional(described(ids, 'Tools put back when this step is done.'))
})

const perSide = v.picklist(['side', 'machine'])

export const authorFormat = v.strictObject({
  procedure: described(id, 'The id of the procedure; a new version keeps it.'),
  title: text,
  summary: text,
  example: v.optional(
    described(
      v.literal(true, 'true, or the line left out'),
      'Written for an invented machine: marked as an example wherever it is offered, and in its records.'
    )
  ),
  languages: described(v.pipe(v.array(language), v.minLength(1)), 'Language tags; the first is the default.'),
  machine: described(
    text,
    'The name of the machine, the same in each procedure for it: records and what is due go by it.'
  ),
  'about the machine': v.optional(described(text, 'How it is built and worked, shown before the start.')),
  sides: v.pipe(v.array(v.strictObject({ id, name: text })), v.minLength(1), v.maxLength(100)),
  tools: v.optional(v.array(v.strictObject({ id, name: text, count: v.optional(whole(1, 100)) }))),
  parts: v.optional(
    v.array(
      v.strictObject({
        id,
        name: text,
        per: perSide,
        count: whole(1, 200),
        care: described(
          v.picklist(['grease', 'dry', 'clean']),
          'grease: thin food-grade film; dry: never grease; clean: neither.'
        ),
        'replace after': v.optional(described(wear, 'When it is worn: so many days or runs, whichever comes first.'))
      })
    )
  ),
  supplies: v.optional(v.array(v.strictObject({ id, name: text, amount: text, per: perSide }))),
  solutions: v.optional(
    v.array(
      v.strictObject({
        id,
        name: text,
        amount: text,
        per: perSide,
        chemical: described(
          v.picklist(CHEMICAL_FAMILIES),
          'hypochlorite: bleach, chlorine sanitizer, chlorinated cleaner; acid: descaler, vinegar, iodophor; ammonia; or other.'
        ),
        directions: text
      })
    )
  ),
  stages: v.pipe(
    v.array(v.strictObject({ stage: text, steps: v.pipe(v.array(step), v.minLength(1), v.maxLength(300)) })),
    v.minLength(1),
    v.maxLength(60)
  )
})

export type AuthoredProcedure = v.InferOutput<typeof authorFormat>
export type AuthoredStep = v.InferOutput<typeof step>
export type AuthoredText = v.InferOutput<typeof text>
