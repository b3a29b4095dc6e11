import { atom } from 'nanostores'
import { expect, it } from 'vitest'
import { aProcedure, EVERYTHING } from '../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE } from '../../tests/helpers/a-run.ts'
import { layOut } from '../core/procedure/course.ts'
import { openPanels, typedIn } from './panels.ts'

it('closes what belongs to the call when another call comes, and nothing else', () => {
  const run = carriedRun(layOut(aProcedure(EVERYTHING)))
  const $call = atom(run.call())
  const panels = openPanels($call)

  panels.show({ kind: 'number', typed: '15', unit: null })
  expect(typedIn(panels.$panel.get())).toMatchObject({ typed: '15' })
  $call.set({ ...run.call() })
  expect(panels.$panel.get().kind).toBe('number')
  $call.set(run.do(DONE).call())
  expect(panels.$panel.get().kind).toBe('none')

  panels.show({ kind: 'problem' })
  $call.set(run.do({ type: 'understood' }).call())
  expect(panels.$panel.get().kind).toBe('problem')
  panels.close()
  expect(panels.$panel.get().kind).toBe('none')
})
