/** What every store behind the server must do. */
import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { canonicalJson, sha256 } from '../../server/procedures/content-hash.ts'
import type { AddedEvents, ChainEntry, IncomingEvent, ProcedureVersion, Records } from '../../server/storage/records.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { aProcedure, withHead } from '../helpers/a-procedure.ts'
import { anyEvent } from '../helpers/any-event.ts'
import { closedRun, publishSmall } from '../helpers/closed-run.ts'
import { counting, STARTED } from '../helpers/stamping.ts'

export interface RecordsStorage {
  /** Empty records. */
  fresh(): Promise<Records>
  /** Closed and opened again, with the same contents. */
  reopened(records: Records): Promise<Records>
}

function incoming(...events: readonly RunEvent[]): readonly IncomingEvent[] {
  return events.map((event) => ({ event, canonical: canonicalJson(event) }))
}

function version(words: string, id = 'test-machine'): ProcedureVersion {
  const head = withHead(`  - {stage: Rinse, steps: [{step: fill, say: ${words}, hands: 30 s}]}`)
  const source = head.replace('procedure: test-machine', `procedure: ${id}`)
  const procedure = aProcedure(source)
  const canonical = canonicalJson(procedure)
  return { hash: sha256(canonical), procedure, canonical, source }
}

function added(result: AddedEvents) {
  if (result.kind === 'no-room') throw new Error('There was room.')
  return { stored: result.stored, conflicting: result.conflicting, positions: [...result.positions] }
}

/** One sending: events that may repeat earlier ones, and the time they arrive. */
const anySendings = fc.array(fc.tuple(fc.array(anyEvent, { maxLength: 8 }), fc.nat(1000)), { maxLength: 8 })

/** Inside a `describe`. `runs` is how many random histories to try. */
export function recordsContract(storage: RecordsStorage, runs: number): void {
  let records: Records
  beforeEach(async () => {
    records = await storage.fresh()
  })
  afterEach(() => records.close())

  const stamp = counting()
  const on = (runId: string, at: number, fact: Parameters<ReturnType<typeof stamp>>[0]): RunEvent => ({
    ...stamp(at)(fact),
    runId
  })

  describe('events', () => {
    test('are as they were, in the order they came, from any position on', async () => {
      const events = [on('a', 3, STARTED), on('b', 1, STARTED), on('a', 2, { type: 'paused' })]
      expect(added(await records.addEvents(incoming(...events), 10))).toMatchObject({
        stored: events.map(({ id }) => id),
        conflicting: []
      })
      const first = await records.eventsAfter('a', 0)
      expect(first.events).toEqual([events[0], events[2]])
      const later = on('a', 1, { type: 'resumed' })
      await records.addEvents(incoming(later), 11)
      const second = await records.eventsAfter('a', first.position)
      expect(second.events).toEqual([later])
      expect(second.position).toBeGreaterThan(first.position)
      expect(await records.eventsAfter('a', second.position)).toEqual({ events: [], position: second.position })
    })

    test('a run nobody has heard of has none', async () => {
      expect(await records.eventsAfter('nobody', 0)).toEqual({ events: [], position: 0 })
    })

    test('sent again they are kept once, and the sender is told that they are kept', async () => {
      const events = [on('a', 1, STARTED), on('a', 2, { type: 'paused' })]
      await records.addEvents(incoming(...events), 10)
      expect(added(await records.addEvents(incoming(...events), 11))).toEqual({
        stored: events.map(({ id }) => id),
        conflicting: [],
        positions: []
      })
      expect((await records.eventsAfter('a', 0)).events).toEqual(events)
    })

    test('the first contents of an id stay; others are told apart and do not hold up the rest', async () => {
      const first = on('a', 1, STARTED)
      const other = { ...first, by: 'Somebody else' }
      const more = on('a', 2, { type: 'paused' })
      await records.addEvents(incoming(first), 10)
      expect(added(await records.addEvents(incoming(other, more), 11))).toMatchObject({
        stored: [more.id],
        conflicting: [first.id]
      })
      expect((await records.eventsAfter('a', 0)).events).toEqual([first, more])
    })

    test('keep every character of every language, and no text ends anything early', async () => {
      const text = "O'Brien; DROP TABLE events; -- \u0000 \n \u2028 漏 🧴 é é"
      const event = on('a', 1, { type: 'problem-reported', lane: 'left', text })
      await records.addEvents(incoming(event), 10)
      expect((await records.eventsAfter('a', 0)).events).toEqual([event])
    })

    test('whatever comes, in whatever parts and repetitions: the first of each id is kept once, in order', async () => {
      await fc.assert(
        fc.asyncProperty(anySendings, async (sendings) => {
          const own = await storage.fresh()
          const kept = new Map<string, RunEvent>()
          for (const [events, at] of sendings) {
            const known = new Set(kept.keys())
            const result = added(await own.addEvents(incoming(...events), at))
            for (const event of events) if (!kept.has(event.id)) kept.set(event.id, event)
            const same = events.filter((event) => canonicalJson(kept.get(event.id)) === canonicalJson(event))
            const others = events.filter((event) => !same.includes(event))
            expect(new Set(result.stored)).toEqual(new Set(same.map(({ id }) => id)))
            expect(new Set(result.conflicting)).toEqual(new Set(others.map(({ id }) => id)))
            const news = same.filter(({ id }) => !known.has(id)).map(({ runId }) => runId)
            expect(new Set(result.positions.map(([runId]) => runId))).toEqual(new Set(news))
            for (const [runId, position] of result.positions) {
              expect((await own.eventsAfter(runId, 0)).position).toBe(position)
            }
          }
          const again = await storage.reopened(own)
          for (const runId of new Set([...kept.values()].map((event) => event.runId))) {
            const expected = [...kept.values()].filter((event) => event.runId === runId)
            const { events } = await again.eventsAfter(runId, 0)
            expect(events.map(canonicalJson)).toEqual(expected.map(canonicalJson))
          }
          await again.close()
        }),
        { numRuns: runs }
      )
    })
  })

  describe('chains', () => {
    /** Worked out by hand from RFC 8785 and SHA-256, not by the store's own means. */
    function expectChained(entries: readonly ChainEntry[], site: string): void {
      let previous = '0'.repeat(64)
      for (const [index, { place, canonical, receivedAt, link, site: own }] of entries.entries()) {
        const bound = { digest: sha256(canonical), place: index + 1, previous, receivedAt, site }
        expect({ place, link, own }).toEqual({ place: index + 1, link: sha256(canonicalJson(bound)), own: site })
        previous = link
      }
    }
    const all = (of: Records, site: string) => of.chainOfSite(site, 0, Number.MAX_SAFE_INTEGER)
    const startedAt = (runId: string, site: string) => on(runId, 1, { ...STARTED, site } as typeof STARTED)

    test('each site has its own, from one sending to the next', async () => {
      await records.addEvents(
        incoming(startedAt('a', 'North'), startedAt('b', 'South'), on('a', 2, { type: 'paused' })),
        10
      )
      await records.addEvents(incoming(on('a', 3, { type: 'resumed' }), on('b', 4, { type: 'paused' })), 11)
      expect(await records.sites()).toEqual([
        { site: 'North', places: 3 },
        { site: 'South', places: 2 }
      ])
      const north = await all(records, 'North')
      expect(north.map(({ runId }) => runId)).toEqual(['a', 'a', 'a'])
      expectChained(north, 'North')
      expectChained(await all(records, 'South'), 'South')
      expect(await records.chainOfRun('a')).toEqual(north)
    })

    test('what comes before its run has begun belongs to none', async () => {
      await records.addEvents(incoming(on('a', 2, { type: 'paused' }), startedAt('b', 'North')), 10)
      expect(await records.begun(['a', 'b', 'c'])).toEqual(new Set(['b']))
      await records.addEvents(incoming(startedAt('a', 'North')), 11)
      expect(await records.begun(['a', 'b', 'c'])).toEqual(new Set(['a', 'b']))
      expect((await records.chainOfRun('a')).map(({ site, place }) => [site, place])).toEqual([
        ['', 1],
        ['North', 2]
      ])
    })

    test('a part of one begins with the link before it', async () => {
      const events = [1, 2, 3, 4].map((at) => (at === 1 ? startedAt('a', 'North') : on('a', at, { type: 'paused' })))
      await records.addEvents(incoming(...events), 10)
      const whole = await all(records, 'North')
      const [, second, third] = whole
      if (!second || !third) throw new Error('There are four.')
      expect(await records.chainOfSite('North', second.position, third.position)).toEqual([second, third])
      expect(await records.linkBefore('North', second.position)).toBe(whole[0]?.link)
      expect(await records.linkBefore('North', whole[0]?.position ?? 0)).toBeNull()
    })

    test('whatever comes, every chain is whole, and every event kept stands in one of them', async () => {
      await fc.assert(
        fc.asyncProperty(anySendings, async (sendings) => {
          const own = await storage.fresh()
          const ids = new Set<string>()
          for (const [events, at] of sendings) {
            await own.addEvents(incoming(...events), at)
            for (const { id } of events) ids.add(id)
          }
          const again = await storage.reopened(own)
          let chained = 0
          for (const { site, places } of await again.sites()) {
            const entries = await all(again, site)
            expect(entries).toHaveLength(places)
            expectChained(entries, site)
            chained += places
          }
          expect(chained).toBe(ids.size)
          await again.close()
        }),
        { numRuns: runs }
      )
    })
  })

  describe('the list of runs', () => {
    test('has the last moved first, with who started it or took it over last, and whether it is over', async () => {
      const finished = [on('a', 1, STARTED), on('a', 5, { type: 'run-finished' })]
      const open = [on('b', 2, STARTED), on('b', 9, { type: 'handed-over', to: 'Ben' })]
      const abandoned = [on('c', 3, STARTED), on('c', 7, { type: 'run-abandoned', reason: 'No water' })]
      await records.addEvents(incoming(...finished, ...open, ...abandoned), 10)
      const [first, second, third, ...more] = await records.runs(10)
      expect(first).toEqual({
        runId: 'b',
        started: open[0],
        operator: 'Ben',
        lastAt: 9,
        open: true,
        ended: null,
        entries: 2,
        signed: []
      })
      expect(second).toEqual({
        runId: 'c',
        started: abandoned[0],
        operator: 'Ada',
        lastAt: 7,
        open: false,
        ended: abandoned[1],
        entries: 2,
        signed: []
      })
      expect(third).toEqual({
        runId: 'a',
        started: finished[0],
        operator: 'Ada',
        lastAt: 5,
        open: false,
        ended: finished[1],
        entries: 2,
        signed: []
      })
      expect(more).toEqual([])
      expect(await records.runs(2)).toEqual([first, second])
    })

    test("goes by everyone's coming and going: a hand-over by somebody who only joined changes nobody else", async () => {
      const phone = counting('phone')
      const theirs = (at: number, fact: Parameters<ReturnType<typeof stamp>>[0]): RunEvent => ({
        ...phone(at)(fact),
        runId: 'a'
      })
      const handsOver = theirs(6, { type: 'handed-over', to: 'Finn' })
      await records.addEvents(incoming(on('a', 1, STARTED), handsOver), 10)
      expect(await records.runs(10)).toMatchObject([{ operator: 'Finn' }])
      await records.addEvents(incoming(theirs(5, { type: 'joined', name: 'Eve' })), 11)
      expect(await records.runs(10)).toMatchObject([{ operator: 'Ada' }])
      await records.addEvents(incoming(theirs(7, { type: 'left', hands: 'tablet' })), 12)
      expect(await records.runs(10)).toMatchObject([{ operator: 'Finn', lastAt: 7 }])
    })

    test('says who has signed, and how many entries there were then', async () => {
      const run = [on('a', 1, STARTED), on('a', 5, { type: 'run-finished' })]
      const signed = on('a', 6, { type: 'signed', meaning: 'review', entries: 2, head: 'head' })
      await records.addEvents(incoming(...run), 10)
      await records.addEvents(incoming(signed), 11)
      const again = await storage.reopened(records)
      expect(await again.runs(10)).toMatchObject([{ runId: 'a', entries: 3, signed: [signed], ended: run[1] }])
      records = again
    })

    test('is open again where what another device did shows that its end does not count', async () => {
      const run = closedRun('a')
      const finished = run.at(-1)
      await publishSmall(records)
      await records.addEvents(incoming(...run), 10)
      expect(await records.runs(10)).toMatchObject([{ open: false, ended: finished }])
      const phone = counting('phone')
      const theirs = (at: number, fact: Parameters<ReturnType<typeof stamp>>[0]): RunEvent => ({
        ...phone(at)(fact),
        runId: 'a'
      })
      const end = finished?.at ?? 0
      const problem = theirs(end - 5000, { type: 'problem-reported', lane: 'left', text: 'It drips.' })
      await records.addEvents(incoming(problem), 11)
      expect(await records.runs(10)).toMatchObject([{ open: true, ended: null }])
      expect(await records.hasOpenRuns(0)).toBe(true)
      records = await storage.reopened(records)
      const takenBack = theirs(end - 4000, { type: 'taken-back', cancels: problem.id })
      await records.addEvents(incoming(takenBack), 12)
      expect(await records.runs(10)).toMatchObject([{ open: false, ended: finished }])
    })

    test('waits for the start of a run that came in parts', async () => {
      const started = on('a', 1, STARTED)
      await records.addEvents(incoming(on('a', 5, { type: 'handed-over', to: 'Ben' })), 10)
      expect(await records.runs(10)).toEqual([])
      await records.addEvents(incoming(started), 11)
      expect(await records.runs(10)).toEqual([
        { runId: 'a', started, operator: 'Ben', lastAt: 5, open: true, ended: null, entries: 2, signed: [] }
      ])
    })
  })

  describe('open runs', () => {
    test('there are none at first, and none when all are over', async () => {
      expect(await records.hasOpenRuns(0)).toBe(false)
      await records.addEvents(incoming(on('a', 1, STARTED)), 10)
      expect(await records.hasOpenRuns(0)).toBe(true)
      await records.addEvents(incoming(on('a', 2, { type: 'run-finished' })), 11)
      expect(await records.hasOpenRuns(0)).toBe(false)
    })

    test('one whose start has not come yet counts: somebody may be waiting in it', async () => {
      await records.addEvents(incoming(on('a', 5, { type: 'paused' })), 10)
      expect(await records.hasOpenRuns(10)).toBe(true)
    })

    test('one that has been silent since then does not count, by the time its events arrived', async () => {
      await records.addEvents(incoming(on('a', 999_999, STARTED)), 10)
      expect(await records.hasOpenRuns(10)).toBe(true)
      expect(await records.hasOpenRuns(11)).toBe(false)
      await records.addEvents(incoming(on('a', 1, { type: 'paused' })), 12)
      expect(await records.hasOpenRuns(11)).toBe(true)
    })
  })

  describe('procedures', () => {
    test('the last published of each id is the current one, and old versions stay for ever', async () => {
      const [old, newer] = [version('Fill the hopper.'), version('Fill the hopper slowly.')]
      const other = version('Fill the hopper.', 'a-machine')
      await records.publish(old, 1)
      await records.publish(newer, 2)
      await records.publish(other, 3)
      expect(await records.currentProcedures()).toEqual([
        { hash: other.hash, procedure: other.procedure },
        { hash: newer.hash, procedure: newer.procedure }
      ])
      expect(await records.procedure(old.hash)).toBe(old.canonical)
      expect(await records.procedure(newer.hash)).toBe(newer.canonical)
      expect(await records.procedure('0'.repeat(64))).toBeNull()
    })

    test('an old version published again is current again', async () => {
      const [old, newer] = [version('Fill the hopper.'), version('Fill the hopper slowly.')]
      for (const [index, each] of [old, newer, old].entries()) await records.publish(each, index)
      expect(await records.currentProcedures()).toEqual([{ hash: old.hash, procedure: old.procedure }])
    })

    test('taken off the list they stay readable', async () => {
      const [mine, other] = [version('Fill the hopper.'), version('Fill the hopper.', 'another')]
      await records.publish(mine, 1)
      await records.publish(other, 2)
      await records.keepCurrent([mine.procedure.id])
      expect((await records.currentProcedures()).map(({ hash }) => hash)).toEqual([mine.hash])
      await records.keepCurrent([])
      expect(await records.currentProcedures()).toEqual([])
      expect(await records.procedure(other.hash)).toBe(other.canonical)
    })
  })

  describe('drafts', () => {
    const draft = (text: string, by = 'Ada') => ({ id: 'test-machine', text, by, base: null })

    test('are saved after the revision that was changed, and never over a newer one', async () => {
      expect(await records.saveDraft(draft('a'), 0, 1)).toMatchObject({ kind: 'saved', draft: { revision: 1, at: 1 } })
      expect(await records.saveDraft(draft('b', 'Ben'), 1, 2)).toMatchObject({ kind: 'saved', draft: { revision: 2 } })
      const late = await records.saveDraft(draft('c'), 1, 3)
      expect(late).toEqual({ kind: 'overtaken', draft: { ...draft('b', 'Ben'), revision: 2, at: 2 } })
      expect(await records.drafts()).toEqual([{ ...draft('b', 'Ben'), revision: 2, at: 2 }])
    })

    test('thrown away leave nothing, and no revision comes again', async () => {
      await records.saveDraft(draft('a'), 0, 1)
      expect(await records.dropDraft('test-machine', 2)).toBe(false)
      expect(await records.dropDraft('test-machine', 1)).toBe(true)
      expect(await records.dropDraft('test-machine', 1)).toBe(false)
      expect([await records.draft('test-machine'), await records.drafts()]).toEqual([null, []])
      expect(await records.saveDraft(draft('b'), 1, 2)).toEqual({ kind: 'overtaken', draft: null })
      expect(await records.saveDraft(draft('b'), 0, 3)).toMatchObject({ kind: 'saved', draft: { revision: 2 } })
    })
  })

  describe('releases', () => {
    const made = (note: string, at: number) => ({ note, by: 'Ada', at, followsFile: false, reasons: [] })

    test('make a version the one that is offered, and are all kept', async () => {
      const [first, second] = [version('Fill the hopper.'), version('Fill it.')]
      await records.publish(first, 1)
      const why = [{ rule: 'two-actions', what: 'Two.', reason: 'One movement.' }]
      await records.release(second, { ...made('shorter', 2), reasons: why })
      expect((await records.currentProcedures()).map(({ hash }) => hash)).toEqual([second.hash])
      await records.release({ ...first, source: `# back\n${first.source}` }, made('back', 3))
      expect((await records.currentProcedures()).map(({ hash }) => hash)).toEqual([first.hash])
      const releases = await records.releases('test-machine')
      expect(releases.map(({ hash, note, reasons }) => [hash, note, reasons])).toEqual([
        [first.hash, 'back', []],
        [second.hash, 'shorter', why]
      ])
      expect(await records.lastReleases()).toEqual(releases.slice(0, 1))
      expect((await records.versions('test-machine')).map(({ hash }) => hash)).toEqual([second.hash, first.hash])
      expect(await records.source(first.hash)).toMatch(/^# back/)
      expect(await records.source(second.hash)).toBe(second.source)
      expect(await records.source('nothing')).toBeNull()
    })

    test('outlive a restart, and a version can be kept without being offered', async () => {
      const [shown, beside] = [version('Fill the hopper.'), version('Fill it.')]
      await records.release(shown, made('a', 1))
      await records.keepVersion(beside, 2)
      await records.saveDraft({ id: 'other', text: 'x', by: '', base: beside.hash }, 0, 3)
      const before = [await records.lastReleases(), await records.drafts(), await records.versions('test-machine')]
      records = await storage.reopened(records)
      expect([await records.lastReleases(), await records.drafts(), await records.versions('test-machine')]).toEqual(
        before
      )
      expect((await records.currentProcedures()).map(({ hash }) => hash)).toEqual([shown.hash])
      expect(await records.procedure(beside.hash)).toBe(beside.canonical)
    })
  })

  test('put away, a procedure is offered again by a new release alone', async () => {
    const [mine, other] = [version('Fill the hopper.'), version('Fill the hopper.', 'another')]
    for (const one of [mine, other]) await records.publish(one, 1)
    const id = mine.procedure.id
    const offered = async () => (await records.currentProcedures()).map(({ hash }) => hash)
    expect(await records.putAway({ id, by: 'Sue', at: 2 })).toBe(true)
    expect(await records.putAway({ id, by: 'Tom', at: 3 })).toBe(false)
    expect(await records.putAway({ id: 'unheard-of', by: 'Tom', at: 3 })).toBe(false)
    await records.publish(mine, 4)
    records = await storage.reopened(records)
    expect(await offered()).toEqual([other.hash])
    expect(await records.allPutAway()).toEqual([{ id, by: 'Sue', at: 2, title: mine.procedure.title }])
    expect(await records.procedure(mine.hash)).toBe(mine.canonical)
    await records.release(mine, { note: '', by: 'Sue', at: 5, followsFile: false, reasons: [] })
    expect((await offered()).toSorted()).toEqual([mine.hash, other.hash].toSorted())
    expect(await records.allPutAway()).toEqual([])
  })

  test('the time anchor is the last one kept', async () => {
    expect(await records.timeAnchor()).toBeNull()
    await records.keepTimeAnchor({ bootId: 'a', uptime: 1.25, trusted: 1_790_000_000_000.5 })
    await records.keepTimeAnchor({ bootId: 'b', uptime: 2, trusted: 1_790_000_000_001 })
    expect(await records.timeAnchor()).toEqual({ bootId: 'b', uptime: 2, trusted: 1_790_000_000_001 })
  })

  test('everything outlives a restart', async () => {
    const events = [on('a', 1, STARTED), on('a', 5, { type: 'handed-over', to: 'Ben' })]
    const kept = version('Fill the hopper.')
    const anchor = { bootId: 'a', uptime: 1.25, trusted: 1_790_000_000_000 }
    await records.publish(kept, 1)
    await records.addEvents(incoming(...events), 10)
    await records.keepTimeAnchor(anchor)
    const before = [await records.runs(10), await records.eventsAfter('a', 0)]
    records = await storage.reopened(records)
    expect([await records.runs(10), await records.eventsAfter('a', 0)]).toEqual(before)
    expect(await records.currentProcedures()).toEqual([{ hash: kept.hash, procedure: kept.procedure }])
    expect(await records.timeAnchor()).toEqual(anchor)
    expect(added(await records.addEvents(incoming(...events), 11)).positions).toEqual([])
  })
}
