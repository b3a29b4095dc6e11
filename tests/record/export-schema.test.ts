import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { expect, test } from 'vitest'
import { anApp } from '../helpers/an-app.ts'
import { closedRun, publishSmall } from '../helpers/closed-run.ts'
import { exportSchemaText } from './export-schema.ts'

const kept = readFileSync(new URL('../../public/record-export.schema.json', import.meta.url), 'utf8')

test('the schema that goes with exports is that of the program; npm run schema makes it anew', () => {
  expect(kept).toBe(exportSchemaText())
})

test('an independent judge finds an export in order, and a broken one not', async () => {
  const isExport = new Ajv2020({ strict: true, allErrors: true }).compile(JSON.parse(kept) as object)
  const { app, send, records } = anApp()
  await publishSmall(records)
  await send({ events: [...closedRun('a'), ...closedRun('b')] })
  for (const path of ['/api/export.json', '/api/export.json?run=b']) {
    const made = (await (await app.request(path)).json()) as Record<string, unknown>
    expect(isExport(made), JSON.stringify(isExport.errors)).toBe(true)
    for (const part of Object.keys(made)) expect(isExport({ ...made, [part]: 'x' })).toBe(false)
  }
})
