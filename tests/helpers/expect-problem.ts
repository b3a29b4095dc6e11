import { expect } from 'vitest'

/** Members of problem details: RFC 9457, 3.1. `type` is about:blank where the status says it all: 4.2.1. */
export async function expectProblem(response: Response, status: number): Promise<void> {
  expect(response.status).toBe(status)
  expect(response.headers.get('content-type')).toBe('application/problem+json')
  expect(response.headers.get('cache-control')).toBe('no-store')
  const text = await response.text()
  expect(JSON.parse(text)).toEqual({
    type: 'about:blank',
    title: expect.stringMatching(/./),
    status,
    detail: expect.stringMatching(/./)
  })
  // Nothing of the inside: no stack, no file, no statement, no class of an error.
  expect(text).not.toMatch(/\bat .+:\d+|node_modules|\.ts\b|SELECT|INSERT|SQLITE|[A-Z]\w+Error\b/)
}
