/** How fast an export is checked: from the bytes of its file to the answer. */
import { canonicalJson } from '../../server/procedures/content-hash.ts'
import { passingSigner } from '../../server/signing/signing-key.ts'
import { chained, NOTHING_CHAINED } from '../../server/storage/chained.ts'
import { headText, NO_LINK } from '../../src/core/record/chain.ts'
import { checkExport } from '../../src/core/record/check-export.ts'
import { EXPORT_FORMAT, type Export } from '../../src/core/record/export-format.ts'
import { closedRun } from '../helpers/closed-run.ts'
import { median, type Figure } from './report.ts'
import { CHECK_TOOLS } from '../record/check-tools.ts'

const ENTRIES = 100_000
const ROUNDS = 5

export async function benchVerify(): Promise<readonly Figure[]> {
  const text = exportOf(ENTRIES)
  const perSecond = Array.from({ length: ROUNDS }, () => {
    const started = performance.now()
    const checked = checkExport(JSON.parse(text), CHECK_TOOLS)
    if (checked.kind !== 'sound' || checked.entries !== ENTRIES) throw new Error(JSON.stringify(checked))
    return (ENTRIES * 1000) / (performance.now() - started)
  })
  const how = `median of ${ROUNDS}, ${ENTRIES} events, ${Math.round(text.length / 1e6)} MB`
  return [{ name: 'events verified', value: median(perSecond), unit: 'per s', atMost: null, atLeast: 50_000, how }]
}

/** What a server would have made of so many events of real runs. */
function exportOf(count: number): string {
  const signer = passingSigner()
  const run = closedRun('run')
  let end = NOTHING_CHAINED
  const entries = Array.from({ length: count }, (_, index) => {
    const like = run[index % run.length]
    if (!like) throw new Error('A run has events.')
    const event = { ...like, id: `${like.id}-${index}`, runId: `run-${Math.floor(index / run.length)}` }
    end = chained('Corner shop', canonicalJson(event), 1_790_000_000_000 + index, end)
    return { place: end.place, receivedAt: 1_790_000_000_000 + index, link: end.link, event }
  })
  const head = { at: 1, link: end.link, place: end.place, site: 'Corner shop' }
  const made: Export = {
    format: EXPORT_FORMAT,
    madeAt: 1,
    chains: [
      {
        site: 'Corner shop',
        after: { place: 0, link: NO_LINK },
        entries,
        head: { at: 1, key: signer.keyId, signature: signer.sign(headText(head)) }
      }
    ],
    loose: [],
    keys: [{ id: signer.keyId, publicKey: signer.publicKey }],
    procedures: {}
  }
  return JSON.stringify(made)
}
