/** A step that says nothing, for tests of times. */
import type { Step } from '../../../src/core/procedure/procedure.ts'

export const A_STEP: Step = {
  id: 'step',
  on: { kind: 'bench' },
  say: {},
  more: null,
  why: null,
  handsSeconds: 0,
  cautions: [],
  confirm: null,
  wait: null,
  check: null,
  repeat: null,
  takes: [],
  frees: []
}
