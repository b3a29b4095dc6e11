import { expect, test } from 'vitest'
import { aProcedure, withHead } from '../../tests/helpers/a-procedure.ts'
import { canonicalJson, sha256 } from '../procedures/content-hash.ts'
import { memoryRecords } from '../storage/memory-records.ts'
import type { ClipStore, KeptClip } from './clip-store.ts'
import { planIn } from './plans.ts'
import type { Clip, Renderer } from './render-clip.ts'
import { createSpeech, type Voice } from './speech.ts'
import { talkIn } from '../../src/core/talk/languages.ts'
import type { Pronunciation } from '../../src/core/talk/spoken/speakable.ts'

const talk = await talkIn('en')
const steps = (say: string) => withHead(`  - {stage: A, steps: [{step: one, on: left, say: ${say}, hands: 5 s}]}`)

async function shop(...sources: readonly string[]) {
  const records = memoryRecords()
  const hashes: string[] = []
  for (const source of sources) {
    const procedure = aProcedure(source)
    const canonical = canonicalJson(procedure)
    hashes.push(sha256(canonical))
    await records.publish({ hash: sha256(canonical), procedure, canonical, source }, 1)
  }
  return { records, hashes }
}

function memoryStore(full: () => boolean = () => false): ClipStore {
  const kept = new Map<string, KeptClip>()
  return {
    find: (spoken) => kept.get(spoken) ?? null,
    keep(spoken, { bytes, ms }) {
      if (full()) return 'ENOSPC'
      const clip = { hash: sha256(spoken), bytes: bytes.length, ms }
      kept.set(spoken, clip)
      return clip
    },
    read: async () => null
  }
}

function recorder(cannot: (spoken: string) => boolean = () => false) {
  const rendered: string[] = []
  return {
    rendered,
    async render(spoken: string): Promise<Clip | null> {
      rendered.push(spoken)
      return cannot(spoken) ? null : { bytes: new Uint8Array(10), ms: 100 }
    }
  }
}

const quiet = { pronunciations: [], log: () => {} }
const english = (
  store: ClipStore,
  render: Renderer,
  pronunciations: readonly Pronunciation[] = []
): readonly Voice[] => [{ language: 'en', plan: planIn(talk, pronunciations), store, render }]

test('everything is rendered once, and a changed step renders one clip more', async () => {
  const { records, hashes } = await shop(steps('Wash it.'), steps('Rinse it.'))
  const { rendered, render } = recorder()
  const speech = createSpeech({ records, voices: english(memoryStore(), render), ...quiet })
  await speech.renderAll()
  const first = [...rendered]
  expect(first).toContain('Rinse it.')
  expect(new Set(first).size).toBe(first.length)
  await speech.manifest(hashes[0] ?? '', 'en')
  await speech.renderAll()
  expect(rendered.slice(first.length)).toEqual(['Wash it.'])
})

test('a manifest tells what is ready and how much there will be', async () => {
  const { records, hashes } = await shop(steps('Wash it.'))
  const speech = createSpeech({ records, voices: english(memoryStore(), recorder().render), ...quiet })
  const before = await speech.manifest(hashes[0] ?? '', 'en')
  await speech.renderAll()
  const after = await speech.manifest(hashes[0] ?? '', 'en')
  expect(before?.total).toBeGreaterThan(100)
  expect(before?.clips).toEqual([])
  expect(after?.clips).toHaveLength(before?.total ?? 0)
  expect(after?.clips[0]).toEqual({ spoken: 'Wash it.', hash: sha256('Wash it.'), bytes: 10, ms: 100 })
  expect(await speech.manifest('f'.repeat(64), 'en')).toBe(null)
})

test('what somebody waits for is rendered first', async () => {
  const { records, hashes } = await shop(steps('Wash it.'), steps('Rinse it.'))
  const { rendered, render } = recorder()
  const speech = createSpeech({ records, voices: english(memoryStore(), render), ...quiet })
  const all = speech.renderAll()
  await Promise.resolve()
  await speech.manifest(hashes[0] ?? '', 'en')
  await all
  expect(rendered.indexOf('Wash it.')).toBeLessThan(5)
})

test('what cannot be said is left out and tried once', async () => {
  const { records, hashes } = await shop(steps('Wash it.'))
  const { rendered, render } = recorder((spoken) => spoken === 'Wash it.')
  const speech = createSpeech({ records, voices: english(memoryStore(), render), ...quiet })
  await speech.renderAll()
  const manifest = await speech.manifest(hashes[0] ?? '', 'en')
  await speech.renderAll()
  expect(manifest?.clips).toHaveLength(manifest?.total ?? -1)
  expect(rendered.filter((spoken) => spoken === 'Wash it.')).toHaveLength(1)
})

test('a full disk ends the work with one message', async () => {
  const { records } = await shop(steps('Wash it.'))
  const { rendered, render } = recorder()
  const said: string[] = []
  const log = (message: string) => void said.push(message)
  const speech = createSpeech({
    records,
    voices: english(
      memoryStore(() => true),
      render
    ),
    pronunciations: [],
    log
  })
  await speech.renderAll()
  expect(rendered).toHaveLength(1)
  expect(said).toEqual([
    'Spoken clips cannot be kept (ENOSPC). Devices use their own voice until there is room and a new start.'
  ])
})

test("a shop's own pronunciations are rendered, and told to the devices", async () => {
  const { records, hashes } = await shop(steps('Close DV-7B.'))
  const pronunciations = [{ written: 'DV-7B', spoken: 'draw valve' }]
  const { rendered, render } = recorder()
  const speech = createSpeech({
    records,
    voices: english(memoryStore(), render, pronunciations),
    pronunciations,
    log: () => {}
  })
  await speech.renderAll()
  expect(rendered).toContain('Close draw valve.')
  expect((await speech.manifest(hashes[0] ?? '', 'en'))?.pronunciations).toEqual(pronunciations)
})

test('each language has its own voice and its own clips; one without a voice has none', async () => {
  const source = steps('Wash it.')
  const { records, hashes } = await shop(source)
  const [first, second] = [recorder(), recorder()]
  const spanish: Voice = {
    language: 'es',
    plan: () => ['Lávelo.'],
    store: memoryStore(),
    render: second.render
  }
  const speech = createSpeech({ records, voices: [...english(memoryStore(), first.render), spanish], ...quiet })
  await speech.renderAll()
  expect(first.rendered).toContain('Wash it.')
  expect(second.rendered).toEqual(['Lávelo.'])
  const [hash] = hashes
  expect(await speech.manifest(hash ?? '', 'es')).toMatchObject({
    language: 'es',
    total: 1,
    clips: [{ spoken: 'Lávelo.' }]
  })
  expect(await speech.manifest(hash ?? '', 'fr')).toBeNull()
})

test('texts in the making are rendered at once, each once; what cannot be said has no clip', async () => {
  const { records } = await shop()
  const { rendered, render } = recorder((spoken) => spoken === '...')
  const speech = createSpeech({ records, voices: english(memoryStore(), render), ...quiet })
  const made = await speech.clipsFor(['Close it.', 'Close it.', '...'], 'en')
  expect([made?.clips.map(({ spoken }) => spoken), made?.language]).toEqual([['Close it.'], 'en'])
  await speech.clipsFor(['Close it.', '...', 'Open it.'], 'en')
  expect(rendered).toEqual(['Close it.', '...', 'Open it.'])
  expect(await speech.clipsFor(['Ciérrelo.'], 'es')).toBeNull()
  expect(rendered).toHaveLength(3)
})

test('texts in the making are said by the voice of their language', async () => {
  const { records } = await shop()
  const [first, second] = [recorder(), recorder()]
  const spanish: Voice = { language: 'es', plan: () => [], store: memoryStore(), render: second.render }
  const speech = createSpeech({ records, voices: [...english(memoryStore(), first.render), spanish], ...quiet })
  expect(await speech.clipsFor(['Ciérrelo.'], 'es')).toMatchObject({ language: 'es', clips: [{ spoken: 'Ciérrelo.' }] })
  expect([first.rendered, second.rendered]).toEqual([[], ['Ciérrelo.']])
})

test('a full disk ends the rendering of texts in the making as well, with one message', async () => {
  const { records } = await shop()
  const { rendered, render } = recorder()
  const said: string[] = []
  const voices = english(
    memoryStore(() => true),
    render
  )
  const speech = createSpeech({ records, voices, pronunciations: [], log: (message) => void said.push(message) })
  expect(await speech.clipsFor(['Close it.', 'Open it.'], 'en')).toMatchObject({ clips: [] })
  await speech.clipsFor(['Rinse it.'], 'en')
  expect([rendered, said.length]).toEqual([['Close it.'], 1])
})
