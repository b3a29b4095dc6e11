/** Where a supervisor improves procedures: the list, one draft, or the versions of one procedure. Loaded when first asked for. */
import { atom, type ReadableAtom } from 'nanostores'
import { layOut } from '../../core/procedure/course.ts'
import { wordsAt } from '../../core/procedure/edit/draft-values.ts'
import { emptyProcedure } from '../../core/procedure/edit/empty-procedure.ts'
import { newId } from '../../core/procedure/edit/new-id.ts'
import type { Procedure, Text } from '../../core/procedure/procedure.ts'
import { readOverview } from '../../core/record/wire-workshop.ts'
import { choose, NO_RULES, type ShopRules } from '../../core/sanitizer/shop-rules.ts'
import type { Trial } from '../../core/plan/trial.ts'
import type { ServerFailure } from '../../ports/server.ts'
import type { DraftBench, VersionListing, WorkshopLink, WorkshopOverview } from '../../ports/workshop.ts'
import type { Ports } from '../ports.ts'
import type { ProcedureShelf } from '../procedure-shelf.ts'
import { rulesHere } from '../rules-shelf.ts'
import type { WholePlan } from '../whole-plan.ts'
import { deviceDraft, keepDeviceDraft, unsavedDrafts } from './device-draft.ts'
import { openDraft, type DraftBegun, type DraftEditor } from './draft-editor.ts'
import { openHearing, type Hearing } from './hearing.ts'

export type Notice =
  | { readonly kind: 'published' | 'put-away'; readonly id: string }
  | { readonly kind: 'refused'; readonly failure: ServerFailure }
  | { readonly kind: 'unreadable-file' }

export type Place =
  | { readonly kind: 'looking' }
  | {
      readonly kind: 'list'
      readonly overview: WorkshopOverview
      /** Of procedures: the server does not have what this device has written of them. */
      readonly unsaved: readonly string[]
      /** Why the list may be empty or old; null while it is fresh. */
      readonly failure: ServerFailure | null
      readonly notice: Notice | null
    }
  | {
      readonly kind: 'draft'
      readonly editor: DraftEditor
      /** What is offered now; null where nothing is. */
      readonly published: PublishedVersion | null
    }
  | {
      readonly kind: 'versions'
      readonly id: string
      readonly title: Text
      readonly current: string | null
      readonly versions: readonly VersionListing[]
      readonly notice: Notice | null
    }

export interface PublishedVersion {
  readonly hash: string
  readonly procedure: Procedure
}

export interface Workshop {
  readonly $place: ReadableAtom<Place>
  readonly hearing: Hearing
  list(notice?: Notice): Promise<void>
  /** The draft of a procedure, or a new one of the version that is offered. */
  open(id: string): Promise<void>
  /** `language`: of its words, until somebody adds others. */
  create(title: string, language: string): Promise<void>
  /** A file that somebody chose: it becomes the draft of its procedure, a step after what was there. */
  takeIn(text: string): Promise<void>
  /** `revision`: of the server's; null where it has none. */
  throwAway(id: string, revision: number | null): Promise<void>
  /** Of the draft that is open. Resolves to why it was not published, or null. */
  publish(note: string, reasons: Readonly<Record<string, string>>): Promise<ServerFailure | null>
  versions(id: string): Promise<void>
  goBack(id: string, hash: string, note: string): Promise<void>
  /** Takes it off the list of what can be cleaned. */
  putAway(id: string): Promise<void>
  version(hash: string): Promise<Procedure | null>
  /** Of a text that is not being written; null when it is not sound. */
  read(text: string): Promise<Procedure | null>
  plan(procedure: Procedure): Promise<WholePlan>
  trial(procedure: Procedure, seed: number): Promise<Trial | null>
  leave(): void
}

export interface WorkshopParts {
  readonly ports: Ports
  readonly link: WorkshopLink
  readonly startBench: () => DraftBench
  readonly shelf: ProcedureShelf
  readonly by: () => string
  readonly wholePlan: (procedure: ReturnType<typeof layOut>) => Promise<WholePlan>
}

const NOTHING: WorkshopOverview = { procedures: [], drafts: [], putAway: [] }
const LAST_OVERVIEW = 'workshop-overview'

/** While the server is away, what it said last: drafts of this device can be gone on with. */
async function lastOverview(log: Ports['log']): Promise<WorkshopOverview> {
  const kept = await log.setting(LAST_OVERVIEW)
  try {
    return (kept.kind === 'kept' && kept.value !== null && readOverview(JSON.parse(kept.value))) || NOTHING
  } catch {
    return NOTHING
  }
}

export function openWorkshop(parts: WorkshopParts): Workshop {
  const { ports, link, startBench, shelf, by } = parts
  const $place = atom<Place>({ kind: 'looking' })
  let overview = NOTHING
  let bench: DraftBench | null = null
  /** Trying takes seconds, and must not hold up what is being written. */
  let trialBench: DraftBench | null = null

  async function shopRules(): Promise<ShopRules> {
    const rules = await rulesHere(ports)
    if (!rules?.chosen) return NO_RULES
    const chosen = choose(rules.chosen, rules.shelf)
    return chosen.kind === 'chosen' ? chosen.shop : NO_RULES
  }

  async function leaveDraft(): Promise<void> {
    const place = $place.get()
    hearing.stop()
    if (place.kind === 'draft') await place.editor.close()
  }

  async function show(draft: DraftBegun): Promise<DraftEditor> {
    bench ??= startBench()
    const editor = openDraft({ ports, link, bench, shop: await shopRules(), by }, draft)
    const hash = overview.procedures.find(({ id }) => id === draft.id)?.hash
    const procedure = hash === undefined ? null : await workshop.version(hash)
    $place.set({ kind: 'draft', editor, published: hash !== undefined && procedure ? { hash, procedure } : null })
    return editor
  }

  /** What this device has and the server does not comes first; where both have something else, its owner decides. */
  async function begunDraft(id: string): Promise<DraftBegun | null> {
    const [here, there] = await Promise.all([deviceDraft(ports.log, id), link.draft(id)])
    const theirs = there.kind === 'answered' ? there.value : null
    if (here && !here.isSaved) return { id, ...here }
    if (theirs) return { id, base: theirs.base, text: theirs.text, revision: theirs.revision, isSaved: true }
    if (here && there.kind === 'failed' && there.failure.kind !== 'rejected') return { id, ...here }
    const hash = overview.procedures.find((one) => one.id === id)?.hash
    if (hash === undefined) return null
    const source = await link.source(hash)
    return source.kind === 'answered' ? { id, base: hash, text: source.value.source, revision: 0, isSaved: true } : null
  }

  const hearing = openHearing(ports)
  const workshop: Workshop = {
    $place,
    hearing,
    async list(notice) {
      const left = leaveDraft()
      $place.set({ kind: 'looking' })
      // What is listed comes after what was written last.
      await left
      const answered = await link.overview()
      overview = answered.kind === 'answered' ? answered.value : await lastOverview(ports.log)
      if (answered.kind === 'answered') await ports.log.keepSetting(LAST_OVERVIEW, JSON.stringify(overview))
      const failure = answered.kind === 'answered' ? null : answered.failure
      const unsaved = await unsavedDrafts(ports.log)
      $place.set({ kind: 'list', overview, unsaved, failure, notice: notice ?? null })
    },
    async open(id) {
      $place.set({ kind: 'looking' })
      const draft = await begunDraft(id)
      if (draft) await show(draft)
      else await workshop.list()
    },
    async create(title, language) {
      const known = [...overview.procedures, ...overview.drafts, ...overview.putAway].map((one) => one.id)
      const id = newId(title, 'procedure', [...known, ...(await unsavedDrafts(ports.log))])
      await show({ id, base: null, text: emptyProcedure(id, title, language), revision: 0, isSaved: false })
    },
    async takeIn(text) {
      bench ??= startBench()
      const read = await bench.read(text, NO_RULES)
      const id = wordsAt(read?.value, ['procedure'])
      if (!/^[a-z][a-z0-9-]{0,63}$/.test(id)) return workshop.list({ kind: 'unreadable-file' })
      const draft = await begunDraft(id)
      const editor = await show(draft ?? { id, base: null, text, revision: 0, isSaved: false })
      editor.write(text)
    },
    async throwAway(id, revision) {
      const answered = revision === null ? null : await link.drop(id, revision)
      if (answered?.kind === 'failed') return workshop.list({ kind: 'refused', failure: answered.failure })
      await keepDeviceDraft(ports.log, id, null)
      await workshop.list()
    },
    async publish(note, reasons) {
      const place = $place.get()
      if (place.kind !== 'draft') return null
      const revision = await place.editor.saved()
      if (revision === null) return { kind: 'unreachable' }
      const instead = place.published?.hash ?? null
      const answered = await link.publish(place.editor.id, { revision, note, reasons, instead })
      if (answered.kind === 'failed') return answered.failure
      await keepDeviceDraft(ports.log, place.editor.id, null)
      await workshop.list({ kind: 'published', id: place.editor.id })
      return null
    },
    async versions(id) {
      await leaveDraft()
      await showVersions(id, null)
    },
    async goBack(id, hash, note) {
      const answered = await link.goBack(id, { hash, note })
      await showVersions(
        id,
        answered.kind === 'answered' ? { kind: 'published', id } : { kind: 'refused', failure: answered.failure }
      )
    },
    async putAway(id) {
      const answered = await link.putAway(id)
      await workshop.list(
        answered.kind === 'answered' ? { kind: 'put-away', id } : { kind: 'refused', failure: answered.failure }
      )
    },
    version: async (hash) => (await shelf.course(hash))?.procedure ?? null,
    async read(text) {
      const read = await bench?.read(text, NO_RULES)
      return read?.checked.kind === 'sound' ? read.checked.procedure : null
    },
    plan: (procedure) => parts.wholePlan(layOut(procedure)),
    async trial(procedure, seed) {
      trialBench ??= startBench()
      return trialBench.trial(procedure, seed)
    },
    leave() {
      void leaveDraft()
      trialBench?.close()
      bench?.close()
      bench = null
      trialBench = null
    }
  }

  async function showVersions(id: string, notice: Notice | null): Promise<void> {
    $place.set({ kind: 'looking' })
    const [answered, fresh] = await Promise.all([link.versions(id), link.overview()])
    if (fresh.kind === 'answered') overview = fresh.value
    if (answered.kind === 'failed') return workshop.list({ kind: 'refused', failure: answered.failure })
    const current = overview.procedures.find((one) => one.id === id) ?? null
    const title = (current ?? overview.putAway.find((one) => one.id === id))?.title ?? { en: id }
    $place.set({
      kind: 'versions',
      id,
      title,
      current: current && current.hash,
      versions: answered.value.versions,
      notice
    })
  }
  return workshop
}

export type { Draft, DraftListing, PutAwayListing, VersionListing, WorkshopListing } from '../../ports/workshop.ts'
