/** What is due: for the page, and as a feed that a calendar can subscribe to. */
import { Hono, type Context } from 'hono'
import { dueCalendar } from '../../src/core/due/due-calendar.ts'
import { dueReader } from '../readers.ts'
import type { Schedule } from '../../src/core/due/schedule.ts'
import { shopDay } from '../../src/core/time/shop-day.ts'
import type { WearBook } from '../due/wear-book.ts'
import { whatIsDue } from '../due/what-is-due.ts'
import { problem } from '../problem.ts'
import type { Records } from '../storage/records.ts'

export interface DueRoutes {
  readonly records: Records
  readonly schedule: Schedule
  readonly wear: WearBook
  readonly now: () => number
}

export function dueRoutes({ records, schedule, wear, now }: DueRoutes): Hono {
  const routes = new Hono()
  const list = (context: Context) =>
    whatIsDue(
      { records, schedule, wear },
      { site: context.req.query('site') || null, zone: zoneOf(context), now: now() }
    )

  routes.get('/due', async (context) => {
    if (shopDay(0, zoneOf(context)) === null) return problem(context, 422, 'No such zone', 'Give zone as an IANA zone.')
    return context.json(await list(context))
  })

  routes.get('/due.ics', async (context) => {
    if (shopDay(0, zoneOf(context)) === null) return problem(context, 422, 'No such zone', 'Give zone as an IANA zone.')
    const feed = dueCalendar((await list(context)).duties, now(), dueReader(context.req.query('language')))
    return context.body(feed, 200, { 'content-type': 'text/calendar; charset=utf-8' })
  })
  return routes
}

function zoneOf(context: Context): string {
  return context.req.query('zone') || 'UTC'
}
