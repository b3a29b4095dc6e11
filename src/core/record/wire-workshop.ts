/** The shapes of the server's answers about procedures in the making; loaded with the workshop. Null for anything else. */
import * as v from 'valibot'
import { reader } from './reader.ts'

const time = v.pipe(v.number(), v.finite(), v.minValue(0))
const whole = v.pipe(v.number(), v.safeInteger(), v.minValue(0))
const text = v.record(v.string(), v.string())

const draftListing = {
  id: v.string(),
  revision: whole,
  by: v.string(),
  at: time,
  base: v.nullable(v.string())
}

const use = v.object({
  hash: v.string(),
  site: v.string(),
  machine: v.string(),
  runs: whole,
  open: whole,
  lastAt: time
})

const release = v.object({
  number: whole,
  hash: v.string(),
  note: v.string(),
  by: v.string(),
  at: time,
  followsFile: v.boolean(),
  reasons: v.array(v.object({ rule: v.string(), what: v.string(), reason: v.string() }))
})

const overview = v.object({
  procedures: v.array(
    v.object({
      id: v.string(),
      title: text,
      machine: text,
      hash: v.string(),
      file: v.nullable(v.string()),
      release: v.nullable(release),
      uses: v.array(use)
    })
  ),
  drafts: v.array(v.object(draftListing)),
  // What an earlier version of this page kept has none.
  putAway: v.optional(v.array(v.object({ id: v.string(), title: text, by: v.string(), at: time })), [])
})

const versions = v.object({
  versions: v.array(
    v.object({
      hash: v.string(),
      publishedAt: time,
      isFile: v.boolean(),
      releases: v.array(release),
      uses: v.array(use)
    })
  )
})

export const readOverview = reader(overview)
export const readDraftAnswer = reader(v.object({ ...draftListing, text: v.string() }))
export const readSavedAnswer = reader(v.object(draftListing))
export const readVersions = reader(versions)
export const readReleased = reader(v.object({ release }))
export const readSource = reader(v.object({ source: v.string() }))
/** What became of something that answers with no more than that it was done. */
export const readDone = reader(v.record(v.string(), v.unknown()))
