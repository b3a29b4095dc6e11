/** What words may mean at a call, with a question that may be open. */
import type { Call } from '../run/call.ts'
import { textIn, type Told } from './call-words.ts'
import type { Expecting } from './hear.ts'
import { openQuestion, takesYesNo, type Asking } from './asking.ts'

export function expectingAt(call: Call, asked: Asking | null, { course, manner }: Told): Expecting {
  const asking = openQuestion(asked, call)
  const step = call.kind === 'step' ? call.place.step : null
  const check = step?.check?.kind
  return {
    course,
    language: manner.language,
    phrase: step?.confirm ? textIn(step.confirm, manner) : null,
    numbers:
      check === 'reading' || check === 'count' || asking?.kind === 'which-correction' || asking?.kind === 'which-part',
    steps: manner.fewWords !== null,
    yesNo: check === 'yes-no' || call.kind === 'caution' || takesYesNo(asking)
  }
}
