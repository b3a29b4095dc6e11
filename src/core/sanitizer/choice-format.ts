/** The shape of chosen.yaml, as a supervisor writes it. */
import * as v from 'valibot'
import { ruleSetId } from './rule-set-format.ts'

export const choiceFormat = v.strictObject({
  rules: v.pipe(ruleSetId, v.description('The id of the rule set of your jurisdiction.')),
  labels: v.optional(
    v.pipe(
      v.array(ruleSetId),
      v.maxLength(20),
      v.description('The ids of the labels of the products in use, one for each kind.')
    )
  )
})
