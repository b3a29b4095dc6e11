/** What leaves the server as evidence: entries as they are chained, who signed the end of the chain, and the procedures. */
import * as v from 'valibot'

export const EXPORT_FORMAT = 'sidecall-export-1'

const whole = v.pipe(v.number(), v.integer(), v.minValue(0))
const time = v.pipe(v.number(), v.minValue(0))
const hash = v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/))
const event = v.object({ id: v.string(), runId: v.string(), type: v.string(), at: time, deviceAt: time })
const linked = { place: v.pipe(whole, v.minValue(1)), receivedAt: time, link: hash }

const chain = v.object({
  site: v.string(),
  after: v.pipe(
    v.object({ place: whole, link: hash }),
    v.description('What stands before the first entry here: place 0 and zeros at the beginning of a chain.')
  ),
  entries: v.pipe(
    v.array(v.union([v.object({ ...linked, event }), v.object({ ...linked, digest: hash })])),
    v.description('Every place without a gap. Entries of other runs stand as their digest alone.')
  ),
  head: v.pipe(
    v.object({ at: time, key: v.string(), signature: v.string() }),
    v.description('Ed25519 (RFC 8032) over the RFC 8785 form of {at, link, place, site} of the last entry; base64.')
  )
})

export const exportFormat = v.object({
  format: v.literal(EXPORT_FORMAT),
  madeAt: time,
  chains: v.array(chain),
  loose: v.pipe(v.array(event), v.description('Entries that no server has chained: made straight from a device.')),
  keys: v.pipe(
    v.array(v.object({ id: hash, publicKey: v.string() })),
    v.description('SubjectPublicKeyInfo in base64; its id is the SHA-256 of that text.')
  ),
  procedures: v.pipe(
    v.record(hash, v.object({ id: v.string() })),
    v.description('Each version that a run names, by the SHA-256 of its RFC 8785 form.')
  )
})

export type Export = v.InferOutput<typeof exportFormat>
