/** From an empty cache to the first spoken call, on a processor four times slower, and the script that took. */
import { brotliCompressSync } from 'node:zlib'
import type { Browser } from 'playwright-core'
import { median, percentile, type Figure } from '../report.ts'
import { begin, freshPage, gather, slowDown } from './operator.ts'

const RUNS = 9
const SLOWER = 4
const SCRIPT_BUDGET_KB = 60

interface ColdStart {
  readonly firstPaint: number
  readonly usable: number
  readonly startToCall: number
  readonly navigationToCall: number
  /**
   * Addresses of all scripts the page asked for before the first call, its workers' included. What the service worker
   * stores meanwhile, for days without a server, is left out.
   */
  readonly scripts: readonly string[]
  /** What came over the wire for them, headers left out. */
  readonly wireBytes: number
}

export async function benchColdStart(browser: Browser, url: string, title: string): Promise<readonly Figure[]> {
  const runs: ColdStart[] = []
  for (let run = 0; run < RUNS; run += 1) runs.push(await coldStart(browser, url, title))
  const how = `median of ${RUNS}, empty cache, ${SLOWER}x slower`
  const time = (name: string, of: (run: ColdStart) => number): Figure[] => [
    { name, value: median(runs.map(of)), unit: 'ms', atMost: null, how },
    { name: `${name}, p95`, value: percentile(runs.map(of), 95), unit: 'ms', atMost: null, how: 'same runs' }
  ]
  const scripts = unique(runs.flatMap((run) => run.scripts))
  return [
    ...time('first contentful paint', (run) => run.firstPaint),
    ...time('navigation to choose screen usable', (run) => run.usable),
    ...time('Start tap to first spoken call', (run) => run.startToCall),
    ...time('navigation to first spoken call', (run) => run.navigationToCall),
    {
      name: 'script of the run screen, brotli',
      value: (await brotliBytes(await namedIn(url))) / 1000,
      unit: 'kB',
      atMost: SCRIPT_BUDGET_KB,
      how: 'all that a run cannot do without; comes with the first screen'
    },
    {
      name: 'script before first call, brotli',
      value: (await brotliBytes(scripts)) / 1000,
      unit: 'kB',
      atMost: null,
      how: `${scripts.length} files: that, the screens before a run, the planner in its worker`
    },
    {
      name: 'script before first call, as served',
      value: median(runs.map((run) => run.wireBytes)) / 1000,
      unit: 'kB',
      atMost: null,
      how: 'bodies over the wire'
    }
  ]
}

async function coldStart(browser: Browser, url: string, title: string): Promise<ColdStart> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, hasTouch: true })
  const page = await freshPage(context)
  await slowDown(page, SLOWER)
  const scripts: string[] = []
  const sizes: Promise<number>[] = []
  context.on('requestfinished', (request) => {
    const address = new URL(request.url())
    if (request.resourceType() !== 'script' && !address.pathname.endsWith('.js')) return
    if (request.serviceWorker()) return
    scripts.push(address.href)
    sizes.push(request.sizes().then(({ responseBodySize }) => responseBodySize))
  })
  await page.goto(url)
  await page.waitForFunction(() => sidecallMarks.usable !== null)
  await gather(page, title)
  await page.evaluate(() => {
    addEventListener('pointerup', (event) => performance.mark('tap', { startTime: event.timeStamp }), { capture: true })
  })
  await begin(page)
  await page.waitForFunction(() => sidecallVoice.firstSpokenAt !== null)
  const timed = await page.evaluate(() => {
    const spoken = sidecallVoice.firstSpokenAt ?? Number.NaN
    return {
      firstPaint: performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN,
      usable: sidecallMarks.usable ?? Number.NaN,
      startToCall: spoken - (performance.getEntriesByName('tap').at(-1)?.startTime ?? Number.NaN),
      navigationToCall: spoken
    }
  })
  const wireBytes = (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0)
  await context.close()
  return { ...timed, scripts, wireBytes }
}

/** What the page itself names, and not what its scripts ask for once they run: without these no screen could come. */
async function namedIn(url: string): Promise<readonly string[]> {
  const html = await (await fetch(url)).text()
  return [...html.matchAll(/(?:src|href)="([^"]+\.js)"/g)].map(([, path = '']) => new URL(path, url).href)
}

const unique = (names: readonly string[]): string[] => [...new Set(names)]

async function brotliBytes(addresses: readonly string[]): Promise<number> {
  if (addresses.length === 0) throw new Error('The page asked for no script.')
  const bodies = await Promise.all(addresses.map(async (address) => (await fetch(address)).arrayBuffer()))
  return bodies.reduce((sum, body) => sum + brotliCompressSync(Buffer.from(body)).length, 0)
}
