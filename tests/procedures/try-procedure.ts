/** Prints what the program finds in procedure files: `npm run procedure -- procedures/*.yaml`. */
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { loadRules } from '../../server/procedures/load-rules.ts'
import { procedureReport } from './procedure-report.ts'

const files = process.argv.slice(2)
if (files.length === 0) {
  console.error('Name one or more procedure files.')
  process.exitCode = 2
}
const rules = await loadRules(fileURLToPath(new URL('../../procedures/rules', import.meta.url)))
for (const { file, problems } of rules.faults) {
  for (const { line, what, mend } of problems) console.log(`${file}${line === null ? '' : `:${line}`} ${what} ${mend}`)
  process.exitCode = 1
}
for (const file of rules.kind === 'loaded' ? files : []) {
  const report = procedureReport(file, readFileSync(file, 'utf8'), rules.kind === 'loaded' ? rules.shop : undefined)
  console.log(report.lines.join('\n'))
  if (!report.good) process.exitCode = 1
}
