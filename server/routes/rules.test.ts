import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { anApp } from '../../tests/helpers/an-app.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { readRulesAnswer } from '../../src/core/record/wire-rules.ts'
import { loadRules, offered } from '../procedures/load-rules.ts'

const shipped = async () => offered(await loadRules(fileURLToPath(new URL('../../procedures/rules', import.meta.url))))

test('the rules of the shop come whole, with what it has chosen', async () => {
  const rules = await shipped()
  const { app } = anApp({ rules })
  const response = await app.request('/api/rules')
  expect(response.headers.get('cache-control')).toBe('no-store')
  const body: unknown = await response.json()
  expect(readRulesAnswer(body)).toEqual(rules)
  expect(rules.chosen).toEqual({ rules: 'us-food-code', labels: ['our-sanitizer', 'our-quat'] })
  expect(rules.shelf.length).toBeGreaterThan(6)
})

test('a shop that has chosen nothing says so', async () => {
  const { app } = anApp()
  expect(await (await app.request('/api/rules')).json()).toEqual({ chosen: null, shelf: [] })
})

test('nothing can be written there', async () => {
  const { app } = anApp()
  await expectProblem(await app.request('/api/rules', { method: 'PUT' }), 405)
})

test('what a page takes in is whole', async () => {
  const { shelf, chosen } = await shipped()
  const [first, ...rest] = shelf
  for (const key of Object.keys(first ?? {})) {
    const { [key as 'id']: _, ...holed } = first ?? { id: '' }
    expect(readRulesAnswer({ chosen, shelf: [holed, ...rest] }), key).toBe(null)
  }
  expect(readRulesAnswer({ chosen: 'us-food-code', shelf })).toBe(null)
})
