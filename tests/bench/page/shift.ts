/** Three hours of work on one page that is never loaded anew: what it still holds of the memory, and of the elements. */
import { readFileSync } from 'node:fs'
import type { CDPSession, Page } from 'playwright-core'
import { hastyOperator } from '../../browser/hasty-operator.ts'
import { hide, hideableBrowser } from '../../browser/hideable-browser.ts'
import { installScriptedVoice } from '../../browser/scripted-voice.ts'
import { kitchenServer } from '../../helpers/kitchen-server.ts'
import { wrongIn } from '../../helpers/run-oracle.ts'
import { aProcedure } from '../../helpers/a-procedure.ts'
import { layOut } from '../../../src/core/procedure/course.ts'
import { median, type Figure } from '../report.ts'

const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS
const SHIFT_MS = 3 * HOUR_MS
const SAMPLE_MS = 10 * MINUTE_MS
/** As long as a glance at another tab takes. */
const HIDDEN_MS = 2 * MINUTE_MS
/** What is made once: texts, voices, the first plan. */
const WARM_MS = 30 * MINUTE_MS
const PROCEDURE = new URL('../../../procedures/twin-freezer-closing.yaml', import.meta.url)

/** Bytes; no text of a run is as long. */
const LONGEST_TEXT = 50_000

interface Held {
  readonly atMs: number
  readonly bytes: number
  readonly nodes: number
  readonly listeners: number
}

export async function benchShift(): Promise<readonly Figure[]> {
  const yaml = readFileSync(PROCEDURE, 'utf8')
  const course = layOut(aProcedure(yaml))
  const server = await kitchenServer([yaml])
  const browser = await hideableBrowser()
  try {
    const page = await browser.context.newPage()
    const errors: string[] = []
    page.on('pageerror', (error) => errors.push(String(error)))
    await page.addInitScript('globalThis.__name = (named) => named')
    await page.addInitScript(installScriptedVoice)
    await page.addInitScript(countLocks)
    await page.clock.install()
    await page.goto(server.url)

    const shift = { passedMs: 0, runs: 0, wrong: 0, hides: 0, locksBack: 0 }
    const [between, within]: [Held[], Held[]] = [[], []]
    const operator = hastyOperator(() => ({
      page,
      server: { ...server, pass: (ms) => ((shift.passedMs += ms), server.pass(ms)) },
      course
    }))
    // What the driver itself puts into the page to do so is there from the first sample on.
    await (
      await hide(page)
    )()
    const session = await page.context().newCDPSession(page)
    while (shift.passedMs < SHIFT_MS) {
      await begin(page)
      do {
        const nextSample = (within.length + 1) * SAMPLE_MS
        await operator.workUntil((shown) => shown === 'finished' || shift.passedMs >= nextSample)
        if (shift.passedMs >= nextSample) within.push({ atMs: shift.passedMs, ...(await heldBy(session, page)) })
        if (shift.passedMs < (shift.hides + 1) * HOUR_MS) continue
        shift.hides += 1
        if (await lookAway(page, operator.pass)) shift.locksBack += 1
      } while ((await operator.shownNow()) !== 'finished')
      shift.runs += 1
      shift.wrong += wrongIn(course.procedure, await operator.events()).length
      await operator.pass(5000)
      await page.getByRole('button', { name: 'Back to the list' }).click()
      await operator.pass(5000)
      between.push({ atMs: shift.passedMs, ...(await heldBy(session, page)) })
    }
    if (errors.length > 0) throw new Error(errors.join('\n'))
    return figures(between, within, shift)
  } finally {
    await browser.end()
    await server.end()
  }
}

async function begin(page: Page): Promise<void> {
  await page.locator('.card').first().click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('.call-area').waitFor()
}

/** What cannot be let go of, once everything that can be is. */
async function heldBy(session: CDPSession, page: Page): Promise<Omit<Held, 'atMs'>> {
  // What the stand-in of the voice remembers is not the page's.
  await page.evaluate(() => sidecallVoice.said.splice(0))
  // What one collection lets go of can be the last that held something else.
  for (let times = 0; times < 3; times += 1) await session.send('HeapProfiler.collectGarbage')
  const { nodes, jsEventListeners } = await session.send('Memory.getDOMCounters')
  return { ...sizesIn(await snapshotOf(session)), nodes, listeners: jsEventListeners }
}

async function snapshotOf(session: CDPSession): Promise<HeapSnapshot> {
  const chunks: string[] = []
  const take = ({ chunk }: { readonly chunk: string }) => void chunks.push(chunk)
  session.on('HeapProfiler.addHeapSnapshotChunk', take)
  await session.send('HeapProfiler.takeHeapSnapshot')
  session.off('HeapProfiler.addHeapSnapshotChunk', take)
  return JSON.parse(chunks.join('')) as HeapSnapshot
}

interface HeapSnapshot {
  readonly snapshot: {
    readonly meta: { readonly node_fields: readonly string[]; readonly node_types: readonly [readonly string[]] }
  }
  /** A row of numbers for each thing in the heap, one row after the other. */
  readonly nodes: readonly number[]
}

/**
 * What the engine translates of the page's functions into machine code grows for as long as it finds more to translate,
 * and what the browser keeps for its own tools is not the page's either: both are left out. So are the sources of
 * scripts, the driver's among them (330 kB), which come and go with the machine code.
 */
function sizesIn({ snapshot: { meta }, nodes }: HeapSnapshot): Pick<Held, 'bytes'> {
  const [type, size] = ['type', 'self_size'].map((field) => meta.node_fields.indexOf(field))
  const [kinds] = meta.node_types
  let bytes = 0
  for (let row = 0; row < nodes.length; row += meta.node_fields.length) {
    const kind = kinds[nodes[row + (type ?? 0)] ?? 0]
    const own = nodes[row + (size ?? 0)] ?? 0
    const isSource = kind === 'string' && own > LONGEST_TEXT
    if (kind !== 'code' && kind !== 'native' && !isSource) bytes += own
  }
  return { bytes }
}

declare global {
  // Only inside the page.
  var sidecallLocks: number
}

/** Of the browser's own locks of the screen, how many are held now. */
function countLocks(): void {
  globalThis.sidecallLocks = 0
  const giver = navigator.wakeLock
  const request = giver.request.bind(giver)
  giver.request = async (type) => {
    const lock = await request(type)
    sidecallLocks += 1
    lock.addEventListener('release', () => (sidecallLocks -= 1))
    return lock
  }
}

/** Behind another tab for a while. True where the lock of the screen was there, was lost and came back. */
async function lookAway(page: Page, pass: (ms: number) => Promise<void>): Promise<boolean> {
  const locks = () => page.evaluate(() => sidecallLocks)
  const before = await locks()
  const show = await hide(page)
  await pass(HIDDEN_MS)
  const hidden = await locks()
  await show()
  for (let tries = 0; tries < 20 && (await locks()) === 0; tries += 1) await pass(5000)
  return before === 1 && hidden === 0 && (await locks()) === 1
}

function figures(
  between: readonly Held[],
  within: readonly Held[],
  { runs, wrong, hides, locksBack }: { runs: number; wrong: number; hides: number; locksBack: number }
): readonly Figure[] {
  const warm = between.filter(({ atMs }) => atMs >= WARM_MS)
  const third = Math.floor(warm.length / 3)
  const grown = (of: (one: Held) => number) => median(warm.slice(-third).map(of)) / median(warm.slice(0, third).map(of))
  const how = `after ${WARM_MS / MINUTE_MS} minutes, on the first screen between runs: median of the last third against the first of ${warm.length} samples, garbage collected`
  const mib = (bytes: number) => bytes / 1024 / 1024
  return [
    {
      name: 'runs in three hours of shift',
      value: runs,
      unit: 'runs',
      atMost: null,
      how: 'the shipped closing by voice, as fast as its waits allow, one page'
    },
    {
      name: 'entries that break a rule',
      value: wrong,
      unit: 'entries',
      atMost: 0,
      how: 'waits kept, nothing twice: the oracle of the tests'
    },
    {
      name: 'screen lock lost and had again',
      value: locksBack,
      unit: 'times',
      atMost: null,
      atLeast: hides,
      how: `the tab truly hidden ${hides} times for ${HIDDEN_MS / MINUTE_MS} minutes`
    },
    { name: 'memory held, growth', value: grown(({ bytes }) => bytes), unit: 'ratio', atMost: 1.1, how },
    {
      name: 'memory held, highest',
      value: mib(Math.max(...within.map(({ bytes }) => bytes))),
      unit: 'MiB',
      atMost: null,
      how: `the page's own values, without machine code, ${within.length} samples within runs`
    },
    { name: 'elements held, growth', value: grown(({ nodes }) => nodes), unit: 'ratio', atMost: 1.1, how },
    { name: 'listeners held, growth', value: grown(({ listeners }) => listeners), unit: 'ratio', atMost: 1.1, how }
  ]
}
