/** Who is at the machine, with the server there and away: the real page over the real server. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { SMALL } from '../helpers/a-procedure.ts'
import { kitchen, say, type Kitchen, type Page } from '../helpers/kitchen-page.ts'
import { OWNER, sending } from '../helpers/shop-people.ts'

let place: Kitchen
beforeEach(async () => {
  place = await kitchen(SMALL)
})
afterEach(() => place.end())

/** Real requests take turns of the event loop, while the clock stands still. */
async function when<T>(work: Promise<T>): Promise<T> {
  const ended: string[] = []
  const done = work.finally(() => ended.push('done'))
  for (let turn = 0; turn < 400 && ended.length === 0; turn += 1) await place.pass(20)
  return done
}

async function addOz(): Promise<string> {
  const added = await place.ask('/api/people', sending('POST', { name: 'Oz', role: 'operator' }))
  const { person } = (await added.json()) as { person: { id: string } }
  const set = await place.ask(`/api/people/${person.id}/pin`, sending('PUT', { pin: '4711' }))
  expect(set.status).toBe(200)
  return person.id
}

/** Chooses Oz and gives a PIN, as the screen before Start does. */
async function chooseOz(page: Page, pin: string): Promise<string> {
  const desk = await when(page.app.people())
  await when(desk.lookNames())
  const oz = desk.$names.get().find(({ name }) => name === 'Oz')
  if (!oz) throw new Error('Oz is not offered.')
  const outcome = await when(desk.checkPin(oz.id, pin))
  const check = outcome.kind === 'right' ? { id: outcome.check, at: page.app.now() } : null
  const settings = page.app.$settings.get()
  page.app.$settings.set({ ...settings, operator: 'Oz', person: { id: oz.id, name: 'Oz', check } })
  return outcome.kind
}

async function begin(page: Page): Promise<string> {
  const view = page.app.$view.get()
  const hash = view.kind === 'choose' ? view.offers?.procedures[0]?.hash : undefined
  await when(page.app.choose(hash ?? ''))
  await when(page.app.begin())
  await place.pass(2000)
  return page.run().session.$state.get().run.id
}

async function knownAs(page: Page, runId: string): Promise<readonly unknown[]> {
  await when(page.app.backToChoice())
  const desk = await when(page.app.records())
  await when(desk.list())
  const listed = desk.$desk.get()
  const rows = listed.kind === 'list' ? listed.rows.map(({ listing }) => listing) : []
  await when(desk.show(rows.filter((row) => row.runId === runId)))
  const shown = desk.$desk.get()
  const record = shown.kind === 'records' ? shown.shown[0]?.record : undefined
  return record?.crew.map(({ name, known }) => `${name}: ${known}`) ?? []
}

describe('the record of a run', () => {
  test('says that a PIN was checked, and by whom: the server', async () => {
    await place.ownedHere()
    const oz = await addOz()
    const page = await place.open()
    expect(await chooseOz(page, '4712')).toBe('refused')
    expect(await chooseOz(page, '4711')).toBe('right')
    const run = await begin(page)
    await place.pass(20_000)
    const { events } = await place.records.eventsAfter(run, 0)
    expect(events.find(({ type }) => type === 'name-checked')).toMatchObject({ device: 'server', person: oz, by: 'Oz' })
    expect(await knownAs(page, run)).toEqual(['Oz: checked'])
  })

  test('says that it was not, where the server could not be asked; nobody waits for it', async () => {
    await place.ownedHere()
    await addOz()
    const before = await place.open()
    await chooseOz(before, '4711')
    await place.pass(3000)
    before.close()
    place.serverAway(true)
    const page = await place.open()
    await place.pass(9000)
    expect(await chooseOz(page, '4711')).toBe('away')
    const run = await begin(page)
    await say(place, page, 'all done')
    place.serverAway(false)
    page.app.wake()
    await place.pass(20_000)
    const { events } = await place.records.eventsAfter(run, 0)
    expect(events[0]).toMatchObject({ type: 'run-started', by: 'Oz', who: { check: null } })
    expect(events.some(({ type }) => type === 'name-checked')).toBe(false)
    expect(await knownAs(page, run)).toEqual(['Oz: chosen'])
  })

  test('says that a name was typed', async () => {
    const page = await place.start('Ada')
    await place.pass(20_000)
    expect(await knownAs(page, page.run().session.$state.get().run.id)).toEqual(['Ada: typed'])
  })
})

test('a run goes on at a device that is not paired; nothing of it is lost, and all is sent once it is', async () => {
  const page = await place.start('Ada')
  await place.pass(20_000)
  const office = await place.ownedElsewhere()
  await say(place, page, 'all done')
  await place.pass(20_000)
  const { session } = page.run()
  const run = session.$state.get().run.id
  expect(page.app.$link.get()).toMatchObject({ kind: 'failing', why: expect.stringContaining('not paired') })
  const sent = (await place.records.eventsAfter(run, 0)).events.length
  expect(session.$state.get().events.length).toBeGreaterThan(sent)

  const made = await office('/api/pairing-codes', sending('POST'))
  const { code } = (await made.json()) as { code: string }
  const desk = await when(page.app.people())
  await when(desk.look())
  expect(desk.$me.get()).toMatchObject({ shop: 'owned', device: null })
  await when(desk.pair(code, 'Freezer tablet'))
  await place.pass(20_000)
  expect(page.app.$link.get()).toEqual({ kind: 'linked' })
  expect((await place.records.eventsAfter(run, 0)).events.length).toBe(session.$state.get().events.length)
})

test('the desk for people shows when a password has grown old, and what is refused for it', async () => {
  await place.ownedHere()
  const page = await place.open()
  const desk = await when(page.app.people())
  await when(desk.look())
  expect([desk.$elevated.get(), desk.$me.get()?.person?.role]).toEqual([true, 'owner'])
  await when(desk.addPerson('Oz', 'operator', '0000'))
  expect(desk.$notice.get()).toMatchObject({ kind: 'failed', failure: { detail: expect.stringContaining('alike') } })
  expect(desk.$lists.get()?.people.map(({ name, hasSecret }) => [name, hasSecret])).toEqual([
    [OWNER.name, true],
    ['Oz', false]
  ])
  await when(desk.addPerson('Sam', 'supervisor', ''))
  expect(desk.$notice.get()).toMatchObject({ kind: 'code', for: 'password', whose: 'Sam' })

  await place.pass(5 * 60_000)
  expect(desk.$elevated.get()).toBe(false)
  await when(desk.pairingCode())
  expect(desk.$notice.get()).toMatchObject({ kind: 'failed', failure: { title: 'Give your password again' } })
  await when(desk.elevate('not the password'))
  expect([desk.$elevated.get(), desk.$notice.get()?.kind]).toEqual([false, 'failed'])
  await when(desk.elevate(OWNER.password))
  expect([desk.$elevated.get(), desk.$notice.get()?.kind]).toEqual([true, 'done'])
  await when(desk.pairingCode())
  expect(desk.$notice.get()).toMatchObject({ kind: 'code', for: 'pairing' })

  await when(desk.moreDeeds())
  expect(desk.$deeds.get()?.at(-1)?.what).toBe('owner-made')
  place.serverAway(true)
  await when(desk.signOut())
  expect(desk.$notice.get()).toMatchObject({ kind: 'failed', failure: { kind: 'unreachable' } })
  expect(desk.$me.get()?.person).not.toBeNull()
  place.serverAway(false)
  await when(desk.signOut())
  expect([desk.$me.get()?.person, desk.$lists.get(), desk.$deeds.get()]).toEqual([null, null, null])
})
