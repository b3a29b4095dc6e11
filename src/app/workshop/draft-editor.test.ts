import { expect, test } from 'vitest'
import { fakeClock, promisesRun } from '../../../tests/helpers/fake-clock.ts'
import { inlineBench } from '../../../tests/helpers/inline-bench.ts'
import { memoryStorage } from '../../../tests/helpers/memory-event-log.ts'
import type { Draft, WorkshopLink } from '../../ports/workshop.ts'
import { openDraft } from './draft-editor.ts'

/** A server that takes every draft, and a device whose store can be full. */
function desk(isSaved: boolean) {
  const clock = fakeClock()
  const saved: string[] = []
  const colleague: { draft: Draft | null } = { draft: null }
  const device = { isFull: false }
  const log = memoryStorage().open()
  const link = {
    async save(id: string, { text, by, base }: Parameters<WorkshopLink['save']>[1]) {
      if (colleague.draft)
        return { kind: 'failed', failure: { kind: 'rejected', status: 409, title: 'Newer', detail: '' } } as const
      saved.push(text)
      return { kind: 'answered', value: { id, base, by, at: 5, revision: saved.length + 1 } } as const
    },
    async draft() {
      if (!colleague.draft) throw new Error('Nobody asked for it.')
      return { kind: 'answered', value: colleague.draft } as const
    }
  } as Partial<WorkshopLink> as WorkshopLink
  const editor = openDraft(
    {
      ports: {
        clock,
        log: {
          ...log,
          keepSetting: async (key, value) =>
            device.isFull ? { kind: 'failed', reason: 'full', detail: 'no room' } : log.keepSetting(key, value)
        }
      },
      link,
      bench: inlineBench(),
      shop: { rules: null, labels: [] } as never,
      by: () => 'Sue'
    },
    { id: 'a', base: null, text: 'title: A', revision: isSaved ? 1 : 0, isSaved }
  )
  return { clock, saved, device, editor, colleague }
}

test('looking at the text changes nothing: nothing is sent', async () => {
  const { editor, saved, clock } = desk(true)
  editor.write('title: A')
  await clock.pass(5000)
  expect(saved).toEqual([])
  expect(editor.$draft.get().saving).toEqual({ kind: 'saved', at: null })
})

test('what a full device could not keep is sent when the draft is left', async () => {
  const { editor, saved, device } = desk(true)
  device.isFull = true
  editor.write('title: B')
  await promisesRun()
  expect(editor.$draft.get().saving.kind).toBe('not-kept')
  await editor.close()
  expect(saved).toEqual(['title: B'])
})

test('on a full device a draft that the server has counts as saved, so that it can be published', async () => {
  const { editor, device, clock } = desk(true)
  device.isFull = true
  editor.write('title: B')
  await clock.pass(5000)
  expect(editor.$draft.get().saving).toEqual({ kind: 'saved', at: 5 })
  expect(await editor.saved()).toBe(2)
})

test('undone to what the server has, it is saved, and nothing more is sent', async () => {
  const { editor, saved, clock } = desk(true)
  editor.write('title: B')
  await editor.undo()
  await clock.pass(5000)
  expect(saved).toEqual([])
  expect(editor.$draft.get().saving.kind).toBe('saved')
  expect(editor.$draft.get().canRedo).toBe(true)
})

test("overtaken, one's own text is sent once it is chosen, also where it is the one that was saved last", async () => {
  const { editor, saved, clock, colleague } = desk(true)
  editor.write('title: B')
  await clock.pass(5000)
  colleague.draft = { id: 'a', base: null, by: 'Bob', at: 6, revision: 9, text: 'title: C' }
  editor.write('title: D')
  await clock.pass(5000)
  expect(editor.$draft.get().saving.kind).toBe('overtaken')
  expect(await editor.saved()).toBeNull()
  await editor.undo()
  colleague.draft = null
  await editor.settle('mine')
  expect(saved).toEqual(['title: B', 'title: B'])
  expect(editor.$draft.get().saving.kind).toBe('saved')
})

test('undone at once, an edit is what is taken back, and not what came before it', async () => {
  const { editor } = desk(true)
  const set = (value: string) => editor.edit({ kind: 'set', path: ['title'], value })
  await set('B')
  void set('C')
  await editor.undo()
  expect(editor.$draft.get()).toMatchObject({ text: 'title: B\n', canRedo: true })
  void editor.redo()
  void editor.undo()
  void editor.undo()
  await set('D')
  expect(editor.$draft.get()).toMatchObject({ text: 'title: D\n', canRedo: false })
  await editor.undo()
  expect(editor.$draft.get().text).toBe('title: A')
})

test('a text that is written while an edit is being made keeps both', async () => {
  const { editor } = desk(true)
  const made = editor.edit({ kind: 'set', path: ['title'], value: 'B' })
  await Promise.resolve()
  editor.write('title: A\nsummary: Written')
  expect(await made).toBe(true)
  expect(editor.$draft.get().text).toBe('title: B\nsummary: Written\n')
})
