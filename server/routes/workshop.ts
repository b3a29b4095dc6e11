/** Procedures in the making: drafts, publishing, versions and going back. */
import { Hono, type Context } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import * as v from 'valibot'
import type { ShopRules } from '../../src/core/sanitizer/shop-rules.ts'
import type { Accounts } from '../accounts/accounts.ts'
import { doer } from '../accounts/caller.ts'
import type { Live } from '../live.ts'
import { notFound, problem } from '../problem.ts'
import { jsonOnly } from '../security.ts'
import type { Speech } from '../speech/speech.ts'
import type { Records } from '../storage/records.ts'
import type { Draft } from '../storage/workshop-records.ts'
import { toGoBack, toPublish, type ToPublish } from '../workshop/publish.ts'
import { usesIn } from '../workshop/uses.ts'
import { bodyOf, smallBody } from './json-body.ts'

export interface WorkshopRoutes {
  readonly records: Records
  readonly accounts: Accounts
  /** Null while the rules of the shop cannot be read: then nothing is published. */
  readonly shop: ShopRules | null
  /** The version that the file of each procedure is. */
  readonly shipped: ReadonlyMap<string, string>
  readonly speech: Speech | null
  readonly live: Live
  readonly now: () => number
}

/** Of a draft's text, in bytes; a procedure has at most a million letters. */
const MOST_BYTES = 3_500_000
const MOST_RUNS = 2000

const wholeCharacters = v.regex(/^\P{Surrogate}*$/u)
const words = (most: number) => v.pipe(v.string(), v.trim(), v.maxLength(most), wholeCharacters)
const id = v.pipe(v.string(), v.regex(/^[a-z][a-z0-9-]{0,63}$/))
const hash = v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/))
const revision = v.pipe(v.number(), v.safeInteger(), v.minValue(0))

const savedDraft = v.strictObject({
  text: v.pipe(v.string(), v.maxLength(1_000_000), wholeCharacters),
  by: words(200),
  base: v.nullable(hash),
  after: revision
})
const publishing = v.strictObject({
  revision,
  note: words(1000),
  reasons: v.record(words(2000), words(1000)),
  instead: v.nullable(hash)
})
const goingBack = v.strictObject({ hash, note: words(1000) })
const toSay = v.strictObject({
  language: words(35),
  texts: v.pipe(v.array(v.pipe(words(800), v.minLength(1))), v.maxLength(60))
})

/** What each route takes. */
export const WORKSHOP_BODIES = {
  'PUT /api/workshop/drafts/:id': savedDraft,
  'POST /api/workshop/drafts/:id/publish': publishing,
  'POST /api/workshop/procedures/:id/go-back': goingBack,
  'POST /api/workshop/speech': toSay
}

export function workshopRoutes({ records, accounts, shop, shipped, speech, live, now }: WorkshopRoutes): Hono {
  const routes = new Hono()
  const limit = bodyLimit({
    maxSize: MOST_BYTES,
    onError: (context) => problem(context, 413, 'Too large', 'Split it into several procedures.')
  })

  routes.get('/workshop', async (context) => {
    const [current, drafts, last, runs, putAway] = await Promise.all([
      records.currentProcedures(),
      records.drafts(),
      records.lastReleases(),
      records.runs(MOST_RUNS),
      records.allPutAway()
    ])
    const uses = usesIn(runs)
    const procedures = current.map(({ hash: version, procedure }) => ({
      id: procedure.id,
      title: procedure.title,
      machine: procedure.machine,
      hash: version,
      file: shipped.get(procedure.id) ?? null,
      release: last.find((release) => release.id === procedure.id) ?? null,
      uses: uses.get(procedure.id) ?? []
    }))
    return context.json({ procedures, drafts: drafts.map(withoutText), putAway })
  })

  routes.get('/workshop/drafts/:id', async (context) => {
    const draft = await records.draft(context.req.param('id'))
    return draft === null ? notFound(context) : context.json(draft)
  })
  routes.put('/workshop/drafts/:id', jsonOnly(), limit, async (context) => {
    const asked = await bodyOf(context, savedDraft)
    const name = v.safeParse(id, context.req.param('id'))
    if (!asked || !name.success) return unusable(context)
    const { after, ...draft } = asked
    // Before the shop has people, the name that somebody typed.
    const who = doer(context).by || draft.by
    const saved = await records.saveDraft({ id: name.output, ...draft, by: who }, after, now())
    return saved.kind === 'saved' ? context.json(withoutText(saved.draft)) : overtaken(context, saved.draft)
  })
  routes.delete('/workshop/drafts/:id', async (context) => {
    const asked = v.safeParse(revision, Number(context.req.query('revision')))
    const name = context.req.param('id')
    if (!asked.success) return unusable(context)
    const dropped = await records.dropDraft(name, asked.output)
    return dropped ? context.json({ dropped: name }) : overtaken(context, await records.draft(name))
  })

  routes.post('/workshop/drafts/:id/publish', jsonOnly(), limit, async (context) => {
    const asked = await bodyOf(context, publishing)
    if (!asked) return unusable(context)
    const draft = await records.draft(context.req.param('id'))
    if (draft === null) return notFound(context)
    const { note, reasons } = asked
    if (draft.revision !== asked.revision) return overtaken(context, draft)
    if (shop === null) return noRules(context)
    const offered = (await records.currentProcedures()).find(({ procedure }) => procedure.id === draft.id)
    if ((offered?.hash ?? null) !== asked.instead) return published(context)
    const answer = await publish(context, toPublish({ id: draft.id, text: draft.text, reasons }, shop), note)
    if (answer.ok) await records.dropDraft(draft.id, draft.revision)
    return answer
  })

  routes.get('/workshop/procedures/:id/versions', async (context) => {
    const name = context.req.param('id')
    const [versions, releases, runs] = await Promise.all([
      records.versions(name),
      records.releases(name),
      records.runs(MOST_RUNS)
    ])
    if (versions.length === 0) return notFound(context)
    const uses = usesIn(runs).get(name) ?? []
    return context.json({
      versions: versions.map((version) => ({
        ...version,
        isFile: shipped.get(name) === version.hash,
        releases: releases.filter((release) => release.hash === version.hash),
        uses: uses.filter((use) => use.hash === version.hash)
      }))
    })
  })

  routes.post('/workshop/procedures/:id/go-back', jsonOnly(), smallBody, async (context) => {
    const asked = await bodyOf(context, goingBack)
    if (!asked) return unusable(context)
    const name = context.req.param('id')
    const { hash: version, note } = asked
    const known = (await records.versions(name)).some((one) => one.hash === version)
    const text = known ? await records.source(version) : null
    if (text === null) return notFound(context)
    if (shop === null) return noRules(context)
    // What was accepted then is accepted again: going back must not wait for words.
    const accepted = (await records.releases(name)).find((release) => release.hash === version)?.reasons ?? []
    return publish(context, toGoBack({ id: name, text, accepted }, shop), note)
  })

  routes.post('/workshop/procedures/:id/put-away', jsonOnly(), smallBody, async (context) => {
    if (!(await bodyOf(context, v.strictObject({})))) return unusable(context)
    const name = context.req.param('id')
    const who = doer(context)
    if (!(await records.putAway({ id: name, by: who.by, at: now() }))) return notFound(context)
    await accounts.note({ at: now(), ...who, what: 'procedure-put-away', about: name })
    live.offer()
    return context.json({ putAway: name })
  })

  routes.get('/workshop/versions/:hash/source', async (context) => {
    const source = await records.source(context.req.param('hash'))
    return source === null ? notFound(context) : context.json({ source })
  })

  routes.post('/workshop/speech', jsonOnly(), limit, async (context) => {
    const asked = await bodyOf(context, toSay)
    if (!asked) return unusable(context)
    const clips = (await speech?.clipsFor(asked.texts, asked.language)) ?? null
    return clips === null ? notFound(context) : context.json(clips)
  })

  async function publish(context: Context, ready: ToPublish, note: string): Promise<Response> {
    if (ready.kind === 'refused') return problem(context, 422, ready.title, ready.detail)
    const { version, reasons } = ready
    const followsFile = shipped.get(version.procedure.id) === version.hash
    const who = doer(context)
    const release = await records.release(version, { note, by: who.by, at: now(), followsFile, reasons })
    await accounts.note({ at: now(), ...who, what: 'procedure-published', about: `${release.id} ${release.hash}` })
    void speech?.renderAll()
    live.offer()
    return context.json({ release })
  }
  return routes
}

function withoutText({ id, revision, by, at, base }: Draft): Omit<Draft, 'text'> {
  return { id, revision, by, at, base }
}

function unusable(context: Context): Response {
  return problem(context, 422, 'Not understood', 'The request does not have the form that this address takes.')
}

/** The newer text is at the same address. */
function overtaken(context: Context, draft: Draft | null): Response {
  const detail =
    draft === null ? 'The draft was published or thrown away.' : `${draft.by} has saved revision ${draft.revision}.`
  return problem(context, 409, 'Changed meanwhile', detail)
}

/** Nobody takes back what a colleague has published without having seen it. */
function published(context: Context): Response {
  return problem(
    context,
    409,
    'Another version was published meanwhile',
    'Open the draft again, look at its changes against that one, then publish.'
  )
}

function noRules(context: Context): Response {
  return problem(
    context,
    409,
    'The rules of the shop cannot be read',
    'Mend the files in procedures/rules and start the server again. Until then nothing is published.'
  )
}
