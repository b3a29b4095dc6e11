/** A supervisor improves a procedure in the page, over the real server, while others work by it or write at it. */
import { afterEach, describe, expect, test } from 'vitest'
import type { DraftEditor } from '../../src/app/workshop/draft-editor.ts'
import type { Workshop } from '../../src/app/workshop/workshop.ts'
import { SMALL } from '../helpers/a-procedure.ts'
import { promisesRun } from '../helpers/fake-clock.ts'
import { kitchen, type Kitchen, type Page } from '../helpers/kitchen-page.ts'

let shop: Kitchen
afterEach(() => shop.end())

const SAY = ['stages', 0, 'steps', 0, 'say']
const say = (value: string) => ({ kind: 'set', path: SAY, value }) as const

async function settled(): Promise<void> {
  for (let turn = 0; turn < 20; turn += 1) await promisesRun()
}

async function workshopOf(page: Page, name: string): Promise<Workshop> {
  page.app.$settings.set({ ...page.app.$settings.get(), operator: name })
  if (page.app.$view.get().kind !== 'choose') throw new Error('The first screen is not shown.')
  await page.app.showWorkshop()
  const view = page.app.$view.get()
  if (view.kind !== 'workshop') throw new Error(`The page shows ${view.kind}.`)
  return view.workshop
}

function editorOf(workshop: Workshop): DraftEditor {
  const place = workshop.$place.get()
  if (place.kind !== 'draft') throw new Error(`The workshop shows ${place.kind}.`)
  return place.editor
}

async function improve(page: Page, name: string): Promise<{ workshop: Workshop; editor: DraftEditor }> {
  const workshop = await workshopOf(page, name)
  await workshop.open('test-machine')
  return { workshop, editor: editorOf(workshop) }
}

/** Writing is open until the shop has people; publishing never is. */
async function refusalBeforeOwner(workshop: Workshop) {
  await workshop.open('test-machine')
  await editorOf(workshop).edit(say('Fill it.'))
  const refusal = await workshop.publish('Early.', {})
  await editorOf(workshop).undo()
  await editorOf(workshop).saved()
  return refusal
}

function headline(editor: DraftEditor): string {
  return /say: (.*)/.exec(editor.$draft.get().text)?.[1] ?? ''
}

describe('publishing while a run is going on', () => {
  test('the run keeps its version, also after a reload; the next one uses the new one', async () => {
    shop = await kitchen(SMALL)
    const tablet = await shop.start()
    const before = tablet.run().session.$state.get().course.procedure
    const office = await shop.openElsewhere()
    await shop.ownedHere()
    const { workshop, editor } = await improve(office, 'Sue')
    expect(await editor.edit(say('Fill the hopper to the line.'))).toBe(true)
    await settled()
    expect(await workshop.publish('Says how far.', {})).toBeNull()
    expect(workshop.$place.get()).toMatchObject({ kind: 'list', notice: { kind: 'published' } })
    await shop.pass(1000)
    expect(tablet.run().session.$state.get().course.procedure).toEqual(before)
    tablet.close()
    const again = await shop.open()
    expect(again.run().session.$state.get().course.procedure).toEqual(before)

    await office.app.backToChoice()
    const view = office.app.$view.get()
    const [offered] = view.kind === 'choose' ? (view.offers?.procedures ?? []) : []
    await office.app.choose(offered?.hash ?? '')
    await office.app.begin()
    await shop.pass(1500)
    const [first] = office.run().session.$state.get().course.procedure.stages
    expect(first?.steps[0]?.say).toEqual({ en: 'Fill the hopper to the line.' })
    expect((await shop.records.runs(9)).map(({ started }) => started.procedureHash).toSorted()).toHaveLength(2)
    again.close()
    office.close()
  })

  test('a page that shows what is offered is told at once', async () => {
    shop = await kitchen(SMALL)
    const [tablet, office] = [await shop.open(), await shop.openElsewhere()]
    await shop.ownedHere()
    const { workshop, editor } = await improve(office, 'Sue')
    await editor.edit({ kind: 'set', path: ['title'], value: 'Better' })
    await workshop.publish('Better name.', {})
    await shop.pass(100)
    await settled()
    const view = tablet.app.$view.get()
    expect(view.kind === 'choose' && view.offers?.procedures.map(({ title }) => title)).toEqual([{ en: 'Better' }])
    tablet.close()
    office.close()
  })
})

test('put away, a procedure leaves every first screen, and the run that is going on is finished', async () => {
  shop = await kitchen(SMALL)
  const tablet = await shop.start()
  const [idle, office] = [await shop.openElsewhere(), await shop.openElsewhere()]
  await shop.ownedHere()
  const workshop = await workshopOf(office, 'Sue')
  await workshop.putAway('test-machine')
  expect(workshop.$place.get()).toMatchObject({
    kind: 'list',
    notice: { kind: 'put-away' },
    overview: { procedures: [], putAway: [{ id: 'test-machine' }] }
  })
  await shop.pass(100)
  await settled()
  const offered = () => {
    const view = idle.app.$view.get()
    return view.kind === 'choose' ? (view.offers?.procedures ?? []).map(({ id }) => id) : null
  }
  expect(offered()).toEqual([])
  tablet.close()
  const again = await shop.open()
  expect(again.run().session.$state.get().run.status).toBe('running')

  await workshop.versions('test-machine')
  const place = workshop.$place.get()
  const [version] = place.kind === 'versions' ? place.versions : []
  await workshop.goBack('test-machine', version?.hash ?? '', 'It is needed again.')
  await shop.pass(100)
  await settled()
  expect(offered()).toEqual(['test-machine'])
  for (const page of [again, idle, office]) page.close()
})

describe('two supervisors at one draft', () => {
  async function both() {
    shop = await kitchen(SMALL)
    const [hers, his] = [await shop.open(), await shop.openElsewhere()]
    const sue = await improve(hers, 'Sue')
    const tom = await improve(his, 'Tom')
    await sue.editor.edit(say("Fill Sue's."))
    await shop.pass(2000)
    await settled()
    await tom.editor.edit(say("Fill Tom's."))
    await shop.pass(2000)
    await settled()
    return { sue, tom, close: () => [hers, his].forEach((page) => page.close()) }
  }

  test('the second to save is shown both, and nothing is lost whichever is chosen', async () => {
    for (const choice of ['mine', 'theirs'] as const) {
      const { sue, tom, close } = await both()
      expect(sue.editor.$draft.get().saving.kind).toBe('saved')
      const { saving } = tom.editor.$draft.get()
      expect(saving).toMatchObject({ kind: 'overtaken', theirs: { by: 'Sue', text: sue.editor.$draft.get().text } })
      await tom.editor.settle(choice)
      await settled()
      const [kept, other] = choice === 'mine' ? ["Fill Tom's.", "Fill Sue's."] : ["Fill Sue's.", "Fill Tom's."]
      expect(headline(tom.editor)).toBe(kept)
      const { text } = (await shop.records.draft('test-machine')) ?? { text: '' }
      expect(text).toContain(kept)
      await tom.editor.undo()
      expect(headline(tom.editor)).toBe(other)
      await tom.editor.saved()
      expect((await shop.records.draft('test-machine'))?.text).toContain(other)
      close()
      if (choice === 'mine') shop.end()
    }
  })

  test('what one has published, the other cannot save over without seeing it', async () => {
    const { sue, tom, close } = await both()
    await shop.ownedHere()
    await sue.workshop.publish('Hers.', {})
    await tom.editor.settle('mine')
    await settled()
    // The draft that he saw is gone with the publishing.
    expect(tom.editor.$draft.get().saving).toEqual({ kind: 'overtaken', theirs: null })
    await tom.editor.settle('mine')
    await settled()
    expect(tom.editor.$draft.get().saving.kind).toBe('saved')
    expect((await shop.records.draft('test-machine'))?.text).toContain("Fill Tom's.")
    close()
  })
})

describe('a server that is away', () => {
  test('a draft is kept on the device, outlives a reload, and is saved when the server is back', async () => {
    shop = await kitchen(SMALL)
    const page = await shop.open()
    const { editor } = await improve(page, 'Sue')
    shop.serverAway(true)
    await editor.edit(say('Fill it alone.'))
    await shop.pass(2000)
    await settled()
    expect(editor.$draft.get().saving.kind).toBe('only-here')
    page.close()
    shop.serverAway(false)
    const again = await shop.open()
    const { editor: reopened } = await improve(again, 'Sue')
    expect(headline(reopened)).toBe('Fill it alone.')
    await shop.pass(2000)
    await settled()
    expect(reopened.$draft.get().saving.kind).toBe('saved')
    expect((await shop.records.draft('test-machine'))?.text).toContain('Fill it alone.')
    again.close()
  })

  test('a new procedure stays in the list, also after a reload, until the server has it or somebody throws it away', async () => {
    shop = await kitchen(SMALL)
    const page = await shop.open()
    const workshop = await workshopOf(page, 'Sue')
    const listed = (one: Workshop) => {
      const place = one.$place.get()
      return place.kind === 'list' ? [place.overview.drafts.map(({ id }) => id), place.unsaved] : place.kind
    }
    shop.serverAway(true)
    await workshop.create('Grill scraper', 'en')
    await settled()
    await workshop.list()
    expect(listed(workshop)).toEqual([[], ['grill-scraper']])
    await workshop.create('Grill scraper', 'en')
    expect(editorOf(workshop).id).toBe('grill-scraper-2')
    await shop.pass(100)
    await settled()
    page.close()

    shop.serverAway(false)
    const again = await shop.open()
    const reopened = await workshopOf(again, 'Sue')
    expect(listed(reopened)).toEqual([[], ['grill-scraper', 'grill-scraper-2']])
    await reopened.throwAway('grill-scraper-2', null)
    expect(listed(reopened)).toEqual([[], ['grill-scraper']])
    await reopened.open('grill-scraper')
    expect(editorOf(reopened).$draft.get().text).toContain('title: "Grill scraper"')
    await shop.pass(100)
    await settled()
    await reopened.list()
    expect(listed(reopened)).toEqual([['grill-scraper'], []])
    again.close()
  })

  test('an answer that was lost is no quarrel with oneself', async () => {
    shop = await kitchen(SMALL)
    const page = await shop.open()
    const { editor } = await improve(page, 'Sue')
    await editor.edit(say('Fill it.'))
    await shop.records.saveDraft(
      { id: 'test-machine', text: editor.$draft.get().text, by: 'Sue', base: editor.base },
      0,
      1
    )
    await shop.pass(2000)
    await settled()
    expect(editor.$draft.get().saving.kind).toBe('saved')
    page.close()
  })
})

test('a new procedure, a file that is taken in, versions, and the way back', async () => {
  shop = await kitchen(SMALL)
  const page = await shop.open()
  const workshop = await workshopOf(page, 'Sue')
  expect(await refusalBeforeOwner(workshop)).toMatchObject({ kind: 'rejected', status: 403 })
  await shop.ownedHere()
  await workshop.create('Grill scraper', 'en')
  expect(editorOf(workshop).id).toBe('grill-scraper')
  await settled()
  expect(editorOf(workshop).$draft.get().read?.checked).toMatchObject({ kind: 'sound', findings: [] })
  expect(await workshop.publish('First.', {})).toBeNull()

  await workshop.takeIn(SMALL.replace('Fill the hopper.', 'Fill from a file.'))
  expect(headline(editorOf(workshop))).toBe('Fill from a file.')
  await editorOf(workshop).undo()
  expect(headline(editorOf(workshop))).toBe('Fill the hopper.')
  await editorOf(workshop).redo()
  expect(await workshop.publish('From a file.', {})).toBeNull()
  await workshop.takeIn('not: a procedure')
  expect(workshop.$place.get()).toMatchObject({ kind: 'list', notice: { kind: 'unreadable-file' } })

  await workshop.versions('test-machine')
  const shown = workshop.$place.get()
  if (shown.kind !== 'versions') throw new Error(shown.kind)
  expect(shown.versions.map(({ releases }) => releases.map(({ note }) => note))).toEqual([['From a file.'], []])
  const old = shown.versions[1]?.hash ?? ''
  await workshop.goBack('test-machine', old, 'It was better.')
  expect(workshop.$place.get()).toMatchObject({ kind: 'versions', current: old, notice: { kind: 'published' } })
  expect((await workshop.version(old))?.stages[0]?.steps[0]?.say).toEqual({ en: 'Fill the hopper.' })
  page.close()
})

test('a step is heard caution first, with figures written out, and silence is one touch away', async () => {
  shop = await kitchen(SMALL)
  const page = await shop.open()
  const { workshop } = await improve(page, 'Sue')
  const said = workshop.hearing
  const caution = { kind: 'caution', hazard: 'Hot.', consequence: 'It burns.', avoid: 'Wear gloves.' } as const
  said.hear([
    {
      key: 'fill',
      language: 'en',
      units: 'metric',
      said: [
        { ...caution, signal: 'danger' },
        { ...caution, signal: null },
        { kind: 'text', text: 'Pour 7.6 L in.' },
        { kind: 'confirm', phrase: 'lid is on' },
        { kind: 'corrections', actions: ['Pour it out.', 'Begin again.'] }
      ]
    }
  ])
  await shop.pass(15_000)
  expect(page.mouth.said.slice(-5).map(({ text }) => text)).toEqual([
    'Danger. Hot. It burns. Wear gloves.',
    'Hot. It burns. Wear gloves.',
    expect.stringMatching(/^Pour seven point six lit(?:er|re)s in\.$/),
    expect.stringContaining('lid is on'),
    expect.stringContaining('Pour it out. Or: Begin again.')
  ])
  expect(said.$saying.get()).toBeNull()
  page.close()
})
