/** The shape of schedule.yaml, as a supervisor writes it. Its JSON Schema in procedures/due/ is made from this. */
import * as v from 'valibot'
import { STATUSES } from '../sanitizer/rule-set.ts'

const patterned = (regex: RegExp, words: string) => v.pipe(v.string(words), v.regex(regex, words))
const id = patterned(/^[a-z][a-z0-9-]{0,63}$/, 'the id of a procedure or part')
const ids = v.pipe(v.array(id), v.minLength(1), v.maxLength(60))
const every = patterned(/^[1-9]\d{0,3} (?:hours?|days?|weeks?)$/, 'a time such as 4 hours or 14 days')
const words = v.pipe(v.string('words'), v.trim(), v.minLength(1), v.maxLength(600))
const by = v.pipe(
  patterned(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day in quotes, such as "06:00"'),
  v.description('Time of day in the shop, such as "06:00".')
)
const cited = {
  source: v.pipe(words, v.description('Section and where its text was seen, or: common practice, no source.')),
  edition: v.pipe(words, v.description('Edition or date of the text.')),
  status: v.pipe(v.picklist(STATUSES), v.description('How far the figure was checked.'))
}

const duty = v.strictObject({
  do: v.pipe(id, v.description('The procedure that has to be done.')),
  every: v.optional(v.pipe(every, v.description('At the latest so long after the last time.'))),
  'each day of use by': v.optional(by),
  'in use after': v.optional(v.pipe(ids, v.description('Procedures after which the machine is in use.'))),
  'before use by': v.optional(by),
  after: v.optional(v.pipe(ids, v.description('Procedures after which it has to be done before the machine is used.'))),
  'if not': v.optional(v.pipe(v.picklist(['must not be used']), v.description('What follows when it is overdue.'))),
  ...cited
})

export const scheduleFormat = v.strictObject({
  due: v.optional(v.pipe(v.array(duty), v.maxLength(100)))
})

export type AuthoredSchedule = v.InferOutput<typeof scheduleFormat>
