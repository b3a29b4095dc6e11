/** The shape of a published procedure as it travels. */
import * as v from 'valibot'
import { CHEMICAL_FAMILIES } from '../sanitizer/chemical-order.ts'
import { READING_KINDS, READING_UNITS, SIGNAL_WORDS, WAIT_KINDS, type Procedure } from '../procedure/procedure.ts'

const id = v.string()
const count = v.pipe(v.number(), v.integer(), v.minValue(0))
const seconds = v.pipe(v.number(), v.finite(), v.minValue(0))
const limit = v.nullable(v.pipe(v.number(), v.finite()))
const text = v.record(v.string(), v.string())
const texts = v.array(text)
const ids = v.array(id)
const per = v.picklist(['side', 'machine'])

const of = v.exactOptional(v.string())
const bound = v.object({ unit: v.picklist(READING_UNITS), min: limit, max: limit })
const heldTo = v.array(v.object({ title: v.string(), source: v.string(), rows: v.array(v.array(v.array(bound))) }))

const caution = v.object({ signal: v.picklist(SIGNAL_WORDS), hazard: text, consequence: text, avoid: text })

const wait = v.object({
  kind: v.picklist(WAIT_KINDS),
  minSeconds: seconds,
  maxSeconds: v.nullable(seconds),
  source: text,
  late: v.nullable(v.object({ say: text, redo: id })),
  of
})

const check = v.variant('kind', [
  v.object({ kind: v.literal('yes-no'), ask: text, good: v.picklist(['yes', 'no']), corrections: texts }),
  v.object({
    kind: v.literal('reading'),
    ask: text,
    reading: v.picklist(READING_KINDS),
    unit: v.picklist(READING_UNITS),
    min: limit,
    max: limit,
    source: text,
    corrections: texts,
    of,
    heldTo: v.exactOptional(heldTo)
  }),
  v.object({
    kind: v.literal('count'),
    ask: text,
    parts: ids,
    corrections: texts,
    going: v.exactOptional(v.picklist(['off', 'on']))
  })
])

const place = v.variant('kind', [
  v.object({ kind: v.literal('sides'), sides: ids }),
  v.object({ kind: v.literal('bench') }),
  v.object({ kind: v.literal('machine') })
])

const step = v.object({
  id,
  on: place,
  say: text,
  more: v.nullable(text),
  why: v.nullable(text),
  handsSeconds: seconds,
  cautions: v.array(caution),
  confirm: v.nullable(text),
  wait: v.nullable(wait),
  check: v.nullable(check),
  repeat: v.nullable(v.object({ from: id, atLeast: count, atMost: count })),
  takes: ids,
  frees: ids,
  chemistry: v.exactOptional(
    v.variant('kind', [
      v.object({ kind: v.literal('use'), solutions: ids }),
      v.object({ kind: v.literal('full-rinse') })
    ])
  )
})

const procedure = v.object({
  id,
  title: text,
  summary: text,
  example: v.exactOptional(v.literal(true)),
  languages: v.array(v.string()),
  machine: text,
  aboutMachine: v.exactOptional(text),
  sides: v.array(v.object({ id, name: text })),
  tools: v.array(v.object({ id, name: text, count })),
  parts: v.array(
    v.object({
      id,
      name: text,
      per,
      count,
      care: v.picklist(['grease', 'dry', 'clean']),
      wear: v.exactOptional(v.object({ days: v.nullable(v.number()), runs: v.nullable(v.number()) }))
    })
  ),
  supplies: v.array(v.object({ id, name: text, amount: text, per })),
  solutions: v.array(
    v.object({
      id,
      name: text,
      amount: text,
      per,
      directions: text,
      chemical: v.exactOptional(v.picklist(CHEMICAL_FAMILIES))
    })
  ),
  stages: v.array(v.object({ title: text, steps: v.array(step) }))
})

type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never
type Writable<T> = T extends readonly (infer Item)[]
  ? Writable<Item>[]
  : T extends object
    ? { -readonly [Key in keyof T]: Writable<T[Key]> }
    : T
/** Fails to compile when the shape here and the type in core/procedure part ways. @public */
export const PROCEDURE_SHAPE_MATCHES_TYPE: Same<v.InferOutput<typeof procedure>, Writable<Procedure>> = true

/**
 * Null when it is none. What it says was checked when it was published; here it is only seen that no part is missing.
 * Whatever this program does not know is left in place, so that the procedure keeps its hash.
 */
export function readPublishedProcedure(value: unknown): Procedure | null {
  return v.is(procedure, value) ? value : null
}
