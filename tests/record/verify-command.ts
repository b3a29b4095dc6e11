/** Checks an export from a shell, with no server. */
import { readFileSync } from 'node:fs'
import { checkExport, type BrokenAt, type Checked, type Fault } from '../../src/core/record/check-export.ts'
import { compareExports, type SiteCompared } from '../../src/core/record/compare-exports.ts'
import { CHECK_TOOLS } from './check-tools.ts'

const VERIFY_HELP = `npm run --silent verify -- FILE [--key ID] [--json]
npm run --silent verify -- OLD NEW [--json]
  FILE       an export of Sidecall (export.json)
  OLD NEW    two of them: does the newer one go on from the older?
  --key ID   the key that must have signed it, as an earlier export or the server's own page names it
Ends with 0 when nothing was changed, with 1 when something was, with 2 when the file cannot be looked at.`

const FAULTS: Readonly<Record<Fault, string>> = {
  'not-an-export': 'This is no export of Sidecall, or part of it is missing.',
  'nothing-in-it': 'It has no entries.',
  place: 'An entry is missing here, or one was moved or added.',
  entry: 'This entry was changed.',
  repeated: 'This entry is there twice.',
  signature: 'This signature does not cover what it says.',
  'unknown-key': 'The end of the chain is signed with a key that the export does not bring.',
  head: 'The end of the chain is not what was signed: entries were cut off, added or changed with all that follow.',
  procedure: 'A procedure was changed.'
}

export interface Printed {
  readonly code: 0 | 1 | 2
  readonly lines: readonly string[]
}

export function verifyCommand(args: readonly string[]): Printed {
  const isJson = args.includes('--json')
  const rest = args.filter((arg) => arg !== '--json')
  const at = rest.indexOf('--key')
  const key = at < 0 ? null : (rest[at + 1] ?? '')
  const files = at < 0 ? rest : [...rest.slice(0, at), ...rest.slice(at + 2)]
  const [file] = files
  if (args.includes('--help')) return { code: 0, lines: [VERIFY_HELP] }
  if (file === undefined || files.length > 2 || key === '') return { code: 2, lines: [VERIFY_HELP] }
  if (files[1] !== undefined) return key === null ? compared(file, files[1], isJson) : { code: 2, lines: [VERIFY_HELP] }
  const read = readJson(file)
  if (read.kind === 'unreadable') {
    const { why } = read
    return { code: 2, lines: isJson ? [JSON.stringify({ kind: 'unreadable', why })] : [why] }
  }
  const checked = checkExport(read.value, CHECK_TOOLS)
  const others = checked.kind === 'sound' && key !== null ? checked.heads.filter((head) => head.key !== key) : []
  const code = checked.kind === 'sound' && others.length === 0 ? 0 : 1
  if (isJson) return { code, lines: [JSON.stringify({ ...checked, otherKeys: others.map((head) => head.key) })] }
  if (checked.kind === 'broken') return { code, lines: [`BROKEN${placed(checked.at)}: ${FAULTS[checked.fault]}`] }
  if (others.length > 0) {
    return { code, lines: [`BROKEN: it is signed with the key ${others[0]?.key ?? ''}, not with the one you named.`] }
  }
  return { code, lines: sound(checked) }
}

/** Ends with 0 only where all of the older one is shown to stand in the newer. */
function compared(oldFile: string, newFile: string, isJson: boolean): Printed {
  const [older, newer] = [readJson(oldFile), readJson(newFile)]
  for (const read of [older, newer]) {
    if (read.kind === 'unreadable') return { code: 2, lines: isJson ? [JSON.stringify(read)] : [read.why] }
  }
  if (older.kind !== 'read' || newer.kind !== 'read') return { code: 2, lines: [VERIFY_HELP] }
  const found = compareExports(older.value, newer.value, CHECK_TOOLS)
  if (found.kind === 'broken') {
    const { at, fault } = found.checked
    const line = `BROKEN in the ${found.which} one${placed(at)}: ${FAULTS[fault]}`
    return { code: 1, lines: isJson ? [JSON.stringify(found)] : [line] }
  }
  const isShown = found.sites.length > 0 && found.sites.every(({ kind }) => kind === 'continued')
  if (isJson) return { code: isShown ? 0 : 1, lines: [JSON.stringify(found)] }
  const nothing = 'The older one has nothing that a server has chained: nothing can be compared.'
  return { code: isShown ? 0 : 1, lines: found.sites.length === 0 ? [nothing] : found.sites.map(siteLine) }
}

function siteLine(one: SiteCompared): string {
  const site = one.site === '' ? 'No site' : one.site
  switch (one.kind) {
    case 'continued': {
      const key = one.otherKey === null ? '' : `; it is signed with another key, ${one.otherKey}`
      return `${site}: goes on. All up to place ${one.place} is the same, ${one.added} places were added${key}.`
    }
    case 'changed':
      return `${site}: CHANGED. They differ at place ${one.place}, or before it.`
    case 'ends-earlier':
      return `${site}: NOT SHOWN. The newer one ends at place ${one.place}, before ${one.before}: it was cut off, or is of fewer runs, or the two were swapped.`
    case 'apart':
      return `${site}: NOT SHOWN. No place is in both: take exports that overlap.`
  }
}

function sound({ entries, others, loose, signatures, heads }: Extract<Checked, { kind: 'sound' }>): readonly string[] {
  return [
    ...(heads.length === 0 ? [] : [`Nothing was changed: ${entries} entries, ${signatures} signatures.`]),
    ...heads.map(
      ({ site, place, at, key }) =>
        `${site === '' ? 'No site' : site}: signed at place ${place} on ${new Date(at).toISOString()} with key ${key}`
    ),
    ...(others === 0 ? [] : [`${others} places in between belong to other runs; only their hashes are here.`]),
    ...(loose === 0
      ? []
      : [`${loose} entries come straight from a device: no server has chained them, so nothing can be said of them.`])
  ]
}

function placed({ site, place, entry, run }: BrokenAt): string {
  const parts = [
    site === null ? null : `site ${JSON.stringify(site)}`,
    place === null ? null : `place ${place}`,
    entry === null ? null : `entry ${entry}`,
    run === null ? null : `run ${run}`
  ].filter((part) => part !== null)
  return parts.length === 0 ? '' : ` at ${parts.join(', ')}`
}

type ReadJson =
  | { readonly kind: 'read'; readonly value: unknown }
  | { readonly kind: 'unreadable'; readonly why: string }

function readJson(file: string): ReadJson {
  try {
    return { kind: 'read', value: JSON.parse(readFileSync(file, 'utf8')) as unknown }
  } catch (error) {
    const why = error instanceof SyntaxError ? 'It is no whole JSON: cut off, perhaps.' : 'It cannot be read.'
    return { kind: 'unreadable', why: `${file}: ${why}` }
  }
}
