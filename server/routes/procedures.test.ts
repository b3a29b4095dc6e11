import { describe, expect, test } from 'vitest'
import { anApp } from '../../tests/helpers/an-app.ts'
import { aProcedure, EVERYTHING, withHead } from '../../tests/helpers/a-procedure.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { canonicalJson, sha256 } from '../procedures/content-hash.ts'
import { memoryRecords } from '../storage/memory-records.ts'

function version(source: string) {
  const procedure = aProcedure(source)
  const canonical = canonicalJson(procedure)
  return { hash: sha256(canonical), procedure, canonical, source }
}

const first = version(EVERYTHING)

async function withProcedure() {
  const records = memoryRecords()
  await records.publish(first, 1)
  return anApp({
    records,
    faults: [{ file: 'bad.yaml', problems: [{ line: 3, what: 'It is bad.', mend: 'Mend it.' }] }]
  })
}

describe('a version', () => {
  test('is the very bytes that were hashed, and may be kept for ever', async () => {
    const { app } = await withProcedure()
    const answer = await app.request(`/api/procedures/${first.hash}`)
    const text = await answer.text()
    expect(sha256(text)).toBe(first.hash)
    expect(JSON.parse(text)).toEqual(first.procedure)
    expect(answer.headers.get('content-type')).toBe('application/json')
    expect(answer.headers.get('etag')).toBe(`"${first.hash}"`)
    expect(answer.headers.get('cache-control')).toBe('public, max-age=31536000, immutable')
  })

  // RFC 9110, 13.1.2: If-None-Match compares weakly, and may be a list or a star.
  test.each([`"${first.hash}"`, `W/"${first.hash}"`, `"other", "${first.hash}"`, '*'])(
    'that the asker has already (%s) is not sent again',
    async (tag) => {
      const { app } = await withProcedure()
      const answer = await app.request(`/api/procedures/${first.hash}`, { headers: { 'if-none-match': tag } })
      expect(answer.status).toBe(304)
      expect(await answer.text()).toBe('')
      expect(answer.headers.get('etag')).toBe(`"${first.hash}"`)
      expect(answer.headers.get('cache-control')).toBe('public, max-age=31536000, immutable')
    }
  )

  test.each([`"${'0'.repeat(64)}"`, first.hash, '""'])(
    'that differs from what the asker has (%s) is sent',
    async (tag) => {
      const { app } = await withProcedure()
      const answer = await app.request(`/api/procedures/${first.hash}`, { headers: { 'if-none-match': tag } })
      expect(answer.status).toBe(200)
    }
  )

  test.each(['0'.repeat(64), 'x', "' OR 1=1", '..%2f..'])('with no such hash (%s) is not found', async (hash) => {
    const { app } = await withProcedure()
    await expectProblem(await app.request(`/api/procedures/${hash}`), 404)
    await expectProblem(await app.request(`/api/procedures/${hash}`, { headers: { 'if-none-match': '*' } }), 404)
  })
})

describe('the list', () => {
  test('has each current procedure in short, and the faulty files', async () => {
    const { app } = await withProcedure()
    const answer = await app.request('/api/procedures')
    expect(answer.headers.get('cache-control')).toBe('no-store')
    const { procedures, faults } = (await answer.json()) as { procedures: unknown[]; faults: unknown[] }
    const { id, title, summary, machine, sides } = first.procedure
    expect(procedures).toEqual([
      { id, hash: first.hash, title, summary, machine, sides, aboutSeconds: expect.any(Number) }
    ])
    expect(faults).toEqual([{ file: 'bad.yaml', problems: [{ line: 3, what: 'It is bad.', mend: 'Mend it.' }] }])
  })

  test('says about how long: hands one after the other, waits side by side', async () => {
    const records = memoryRecords()
    const wait = 'wait: {for: soak, at least: 5 min, source: Label}'
    await records.publish(
      version(withHead(`  - {stage: Soak, steps: [{step: a, say: Pour., hands: 30 s, ${wait}}]}`)),
      1
    )
    const { app } = anApp({ records })
    const answer: unknown = await (await app.request('/api/procedures')).json()
    // Two sides: 30 s left, 5 s to go over, 30 s right, then the right soaks for 300 s.
    expect(answer).toMatchObject({ procedures: [{ aboutSeconds: 365 }] })
  })
})
