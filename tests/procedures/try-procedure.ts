/** Prints what the program finds in procedure files: `npx tsx tests/procedures/try-procedure.ts procedures/*.yaml`. */
import { readFileSync } from 'node:fs'
import { procedureReport } from './procedure-report.ts'

const files = process.argv.slice(2)
if (files.length === 0) {
  console.error('Name one or more procedure files.')
  process.exitCode = 2
}
for (const file of files) {
  const report = procedureReport(file, readFileSync(file, 'utf8'))
  console.log(report.lines.join('\n'))
  if (!report.good) process.exitCode = 1
}
