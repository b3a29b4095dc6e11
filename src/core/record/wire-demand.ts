/** The shape of what one row of a limit asks for. */
import * as v from 'valibot'
import { PLAIN_QUANTITIES } from '../sanitizer/rule-set.ts'

const limit = v.nullable(v.pipe(v.number(), v.finite()))
const bounds = { min: limit, max: limit }

export const demandShape = v.variant('quantity', [
  v.object({ quantity: v.picklist(PLAIN_QUANTITIES), ...bounds }),
  v.object({ quantity: v.literal('temperature'), C: v.nullable(v.object(bounds)), F: v.nullable(v.object(bounds)) }),
  v.object({ quantity: v.literal('clear') })
])
