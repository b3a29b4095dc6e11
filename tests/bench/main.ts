/** `npm run bench [events] [page] [headlines] [shift] [plan] [times] [verify] [lists] [workshop] [-- --long]`: measures what is named, or everything; `--long` takes some minutes more. */
import { benchEvents } from './events.ts'
import { benchPage } from './page/bench-page.ts'
import { benchHeadlines } from './page/headlines.ts'
import { benchShift } from './page/shift.ts'
import { benchPlan } from './plan.ts'
import { benchTimes } from './times.ts'
import { benchLists } from './lists.ts'
import { benchVerify } from './verify.ts'
import { benchWorkshop } from './workshop.ts'
import { printReport, type Figure } from './report.ts'

const SUITES: Readonly<Record<string, (options: { readonly long: boolean }) => Promise<readonly Figure[]>>> = {
  events: benchEvents,
  page: benchPage,
  headlines: benchHeadlines,
  shift: benchShift,
  plan: benchPlan,
  times: benchTimes,
  verify: benchVerify,
  lists: benchLists,
  workshop: benchWorkshop
}

const given = process.argv.slice(2)
const long = given.includes('--long')
const wanted = given.filter((name) => name !== '--long')
const unknown = wanted.filter((name) => !(name in SUITES))
if (unknown.length > 0) {
  console.error(`There is no bench called ${unknown.join(', ')}. There are: ${Object.keys(SUITES).join(', ')}.`)
  process.exit(2)
}
const figures: Figure[] = []
for (const [name, measure] of Object.entries(SUITES)) {
  if (wanted.length === 0 || wanted.includes(name)) figures.push(...(await measure({ long })))
}
printReport(figures)
