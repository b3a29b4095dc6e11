/** `npm run bench [events] [page]`: measures what is named, or everything. */
import { benchEvents } from './events.ts'
import { printReport, type Figure } from './report.ts'

const SUITES: Readonly<Record<string, () => Promise<readonly Figure[]>>> = { events: benchEvents }

const wanted = process.argv.slice(2)
const unknown = wanted.filter((name) => !(name in SUITES))
if (unknown.length > 0) {
  console.error(`There is no bench called ${unknown.join(', ')}. There are: ${Object.keys(SUITES).join(', ')}.`)
  process.exit(2)
}
const figures: Figure[] = []
for (const [name, measure] of Object.entries(SUITES)) {
  if (wanted.length === 0 || wanted.includes(name)) figures.push(...(await measure()))
}
printReport(figures)
