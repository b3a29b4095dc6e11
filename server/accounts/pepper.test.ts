import { chmodSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openPepper } from './pepper.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-pepper-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

test('it is made once, for the owner of the folder alone, and then stays as it is', () => {
  const first = openPepper(folder)
  const again = openPepper(folder)
  if (first.kind === 'failed' || again.kind === 'failed') throw new Error('It can be made.')
  expect([first.isNew, again.isNew]).toEqual([true, false])
  expect(again.pepper).toEqual(first.pepper)
  expect(first.pepper).toHaveLength(32)
  expect(statSync(join(folder, 'pepper')).mode & 0o777).toBe(0o600)
})

test.each(['', 'abc', 'g'.repeat(64)])('one that reads %j is refused in words, and left as it is', (text) => {
  writeFileSync(join(folder, 'pepper'), text)
  chmodSync(join(folder, 'pepper'), 0o600)
  expect(openPepper(folder)).toMatchObject({ kind: 'failed', mend: expect.stringContaining('backup') })
  expect(readFileSync(join(folder, 'pepper'), 'utf8')).toBe(text)
})
