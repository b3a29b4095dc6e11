import { describe, expect, test } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { withHead } from '../../tests/helpers/a-procedure.ts'
import { OWNER, sending } from '../../tests/helpers/shop-people.ts'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import { versionOf } from '../procedures/version-of.ts'
import type { Speech } from '../speech/speech.ts'
import type { ProcedureVersion } from '../storage/records.ts'

const say = (words: string) => withHead(`  - {stage: Rinse, steps: [{step: fill, say: ${words}, hands: 30 s}]}`)
/** Two actions: a warning. */
const WARNED = say('Loosen the screw and lift the tray.')

function version(text: string): ProcedureVersion {
  const read = readProcedure(text)
  const made = read.kind === 'read' ? versionOf(read.procedure, text) : null
  if (made === null) throw new Error('It cannot be read.')
  return made
}

async function aWorkshop(parts: Parameters<typeof anApp>[0] = {}) {
  const file = version(say('Fill the hopper.'))
  const workshop = { shop: { ruleSets: [], labels: [] }, shipped: new Map([['test-machine', file.hash]]) }
  const { records, accounts, live, owner } = anApp({ workshop, ...parts })
  await records.publish(file, 1)
  const browser = await owner()
  const ask = (method: string, path: string, body?: unknown) =>
    browser(`/api/workshop/${path}`, {
      method,
      ...(body === undefined ? {} : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })
    })
  return {
    app: { request: browser },
    records,
    accounts,
    live,
    send: (body: unknown) => browser('/api/events', sending('POST', body)),
    file,
    ask,
    save: (text: string, after: number, by = 'Ada') =>
      ask('PUT', 'drafts/test-machine', { text, by, base: file.hash, after }),
    publish: async (revision: number, reasons = {}, instead?: string) => {
      const [current] = await records.currentProcedures()
      return ask('POST', 'drafts/test-machine/publish', {
        ...{ revision, note: 'why', reasons },
        instead: instead ?? current?.hash ?? null
      })
    },
    offered: async () => {
      const answer = await browser('/api/procedures')
      return ((await answer.json()) as { procedures: { hash: string }[] }).procedures.map(({ hash }) => hash)
    }
  }
}

describe('a draft', () => {
  test('is kept as it is written, sound or not, and told to both of two supervisors', async () => {
    const { save, ask } = await aWorkshop()
    expect(await (await save('not: [yet', 0)).json()).toMatchObject({ revision: 1, by: OWNER.name, at: NOW })
    expect((await save('mine', 1, 'Ben')).status).toBe(200)
    const late = await save('hers', 1)
    await expectProblem(late, 409)
    expect(await (await ask('GET', 'drafts/test-machine')).json()).toMatchObject({ text: 'mine', revision: 2 })
    await expectProblem(await ask('DELETE', 'drafts/test-machine?revision=1'), 409)
    expect((await ask('DELETE', 'drafts/test-machine?revision=2')).status).toBe(200)
    await expectProblem(await ask('GET', 'drafts/test-machine'), 404)
  })

  test('is refused where it is not in the form of one', async () => {
    const { ask, app } = await aWorkshop()
    for (const body of [
      {},
      { text: 1, by: 'A', base: null, after: 0 },
      { text: '\ud800', by: 'A', base: null, after: 0 }
    ])
      await expectProblem(await ask('PUT', 'drafts/test-machine', body), 422)
    const good = { text: 'a', by: 'A', base: null, after: 0 }
    await expectProblem(await ask('PUT', `drafts/${encodeURIComponent('../x')}`, good), 422)
    await expectProblem(await ask('PUT', 'drafts/a', { ...good, text: 'x'.repeat(4_000_000) }), 413)
    const plain = await app.request('/api/workshop/drafts/a', { method: 'PUT', body: JSON.stringify(good) })
    await expectProblem(plain, 415)
  })
})

describe('publishing', () => {
  test('offers the new version at once, tells every page, and takes the draft away', async () => {
    const { save, publish, offered, live, ask, file, records, accounts } = await aWorkshop()
    let told = 0
    live.listen(
      () => {},
      () => {},
      () => (told += 1)
    )
    await save(say('Fill it.'), 0)
    const answer = (await (await publish(1)).json()) as { release: { hash: string } }
    expect(await offered()).toEqual([answer.release.hash])
    expect(answer.release.hash).toBe(version(say('Fill it.')).hash)
    expect(told).toBe(1)
    expect(await records.lastReleases()).toMatchObject([{ by: OWNER.name }])
    const [deed] = await accounts.deeds(Number.MAX_SAFE_INTEGER, 1)
    expect(deed).toMatchObject({ what: 'procedure-published', about: `test-machine ${answer.release.hash}` })
    await expectProblem(await ask('GET', 'drafts/test-machine'), 404)
    const { versions } = (await (await ask('GET', 'procedures/test-machine/versions')).json()) as {
      versions: { hash: string; isFile: boolean; releases: { note: string }[] }[]
    }
    expect(versions.map(({ hash, isFile, releases }) => [hash, isFile, releases.map(({ note }) => note)])).toEqual([
      [answer.release.hash, false, ['why']],
      [file.hash, true, []]
    ])
  })

  test('is refused for what is faulty, for another procedure, and for a text that was changed meanwhile', async () => {
    const { save, publish, offered, file } = await aWorkshop()
    await save('procedure: 1', 0)
    await expectProblem(await publish(1), 422)
    await save(say('Fill it.').replace('test-machine', 'other'), 1)
    await expectProblem(await publish(2), 422)
    await save(say('Fill it.'), 2, 'Ben')
    await expectProblem(await publish(2), 409)
    await expectProblem(await publish(3, {}, 'a'.repeat(64)), 409)
    expect(await offered()).toEqual([file.hash])
  })

  test('asks for a reason for each warning, and keeps it', async () => {
    const { save, publish, records } = await aWorkshop()
    await save(WARNED, 0)
    await expectProblem(await publish(1), 422)
    await expectProblem(await publish(1, { 'two-actions fill.say': '  ' }), 422)
    expect((await publish(1, { 'two-actions fill.say': 'The tray hangs on the screw.' })).status).toBe(200)
    expect((await records.releases('test-machine'))[0]?.reasons).toEqual([
      { rule: 'two-actions', what: expect.any(String), reason: 'The tray hangs on the screw.' }
    ])
  })

  test('leaves a run that is going on with its version, and says where which version is used', async () => {
    const { save, publish, send, file, app } = await aWorkshop()
    const begun = { ...counting()(NOW)(STARTED), procedureHash: file.hash, procedureId: 'test-machine' }
    await send({ events: [begun] })
    await save(say('Fill it.'), 0)
    await publish(1)
    const { runs } = (await (await app.request('/api/runs')).json()) as { runs: { procedureHash: string }[] }
    expect(runs.map(({ procedureHash }) => procedureHash)).toEqual([file.hash])
    expect((await app.request(`/api/procedures/${file.hash}`)).status).toBe(200)
    const shown = (await (await app.request('/api/workshop')).json()) as { procedures: unknown[]; drafts: unknown[] }
    expect(shown).toMatchObject({
      procedures: [{ id: 'test-machine', file: file.hash, uses: [{ hash: file.hash, runs: 1, open: 1 }] }],
      drafts: []
    })
  })
})

describe('going back', () => {
  test('offers an old version again, with what was accepted for it then, and follows the file from there on', async () => {
    const { save, publish, ask, offered, records, file } = await aWorkshop()
    await save(WARNED, 0)
    await publish(1, { 'two-actions fill.say': 'It hangs.' })
    await save(say('Fill it.'), 0)
    await publish(2)
    const back = (hash: string) => ask('POST', 'procedures/test-machine/go-back', { hash, note: 'better' })
    const warned = version(WARNED).hash
    expect((await back(warned)).status).toBe(200)
    expect(await offered()).toEqual([warned])
    expect(await records.lastReleases()).toMatchObject([{ followsFile: false, reasons: [{ reason: 'It hangs.' }] }])
    expect((await back(file.hash)).status).toBe(200)
    expect(await records.lastReleases()).toMatchObject([{ hash: file.hash, followsFile: true }])
    await expectProblem(await back('a'.repeat(64)), 404)
    await expectProblem(await back('x'), 422)
    expect(await (await ask('GET', `versions/${warned}/source`)).json()).toEqual({ source: WARNED })
  })
})

describe('what is no longer offered', () => {
  test('is on no list and nothing of it is due, until one of its versions is published again', async () => {
    const { ask, offered, records, accounts, file, app } = await aWorkshop()
    const away = () => ask('POST', 'procedures/test-machine/put-away', {})
    await expectProblem(await ask('POST', 'procedures/unheard-of/put-away', {}), 404)
    await expectProblem(await ask('POST', 'procedures/test-machine/put-away', { id: 'x' }), 422)
    expect((await away()).status).toBe(200)
    await expectProblem(await away(), 404)
    expect(await offered()).toEqual([])
    const overview = (await (await app.request('/api/workshop')).json()) as {
      procedures: unknown[]
      putAway: unknown[]
    }
    expect(overview.procedures).toEqual([])
    expect(overview.putAway).toEqual([{ id: 'test-machine', title: file.procedure.title, by: OWNER.name, at: NOW }])
    expect((await accounts.deeds(Number.MAX_SAFE_INTEGER, 1))[0]).toMatchObject({
      what: 'procedure-put-away',
      about: 'test-machine'
    })

    // Its file is read at every start, and does not bring it back; what a run is pinned to stays to be had.
    await records.publish(file, NOW + 1)
    expect(await offered()).toEqual([])
    expect((await app.request(`/api/procedures/${file.hash}`)).status).toBe(200)

    expect((await ask('POST', 'procedures/test-machine/go-back', { hash: file.hash, note: 'again' })).status).toBe(200)
    expect(await offered()).toEqual([file.hash])
    expect(await records.allPutAway()).toEqual([])
  })
})

test('nothing is published while the rules of the shop cannot be read', async () => {
  const { records, owner } = anApp({ workshop: { shop: null, shipped: new Map() } })
  const browser = await owner()
  await records.saveDraft({ id: 'test-machine', text: say('Fill it.'), by: 'Ada', base: null }, 0, 1)
  const answer = await browser('/api/workshop/drafts/test-machine/publish', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ revision: 1, note: '', reasons: {}, instead: null })
  })
  await expectProblem(answer, 409)
})

test('what a new version says is rendered, and texts in the making are on request', async () => {
  let rendered = 0
  const clips = { language: 'en', total: 0, clips: [], pronunciations: [] }
  const speech: Speech = {
    manifest: async () => null,
    clipsFor: async (texts, language) => (language === 'en' ? { ...clips, total: texts.length } : null),
    clip: async () => null,
    async renderAll() {
      rendered += 1
    },
    end() {}
  }
  const { save, publish, ask } = await aWorkshop({ speech })
  await save(say('Fill it.'), 0)
  expect((await publish(1)).status).toBe(200)
  expect(rendered).toBe(1)
  const toSay = { language: 'en', texts: ['Fill it.'] }
  expect(await (await ask('POST', 'speech', toSay)).json()).toEqual({ ...clips, total: 1 })
  await expectProblem(await ask('POST', 'speech', { ...toSay, texts: Array.from({ length: 61 }, () => 'a') }), 422)
  await expectProblem(await ask('POST', 'speech', { texts: ['Fill it.'] }), 422)
  await expectProblem(await ask('POST', 'speech', { ...toSay, language: 'es' }), 404)
  const { ask: silent } = await aWorkshop()
  await expectProblem(await silent('POST', 'speech', toSay), 404)
})
