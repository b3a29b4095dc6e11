/** `npm run backup [-- FOLDER]` and `npm run restore -- FOLDER`. */
import { resolve } from 'node:path'
import { readSettings } from '../settings.ts'
import { backUp } from './back-up.ts'
import { restore } from './restore.ts'

const [what, given] = process.argv.slice(2)
const settings = readSettings(process.env)
if (settings.kind === 'faulty') fail(settings.what, settings.mend)
else if (what === 'restore' && given === undefined)
  fail('No backup is named.', 'Give its folder: npm run restore -- FOLDER')
else await run(settings.settings.dataFolder)

async function run(dataFolder: string): Promise<void> {
  if (what === 'restore') {
    const restored = restore(resolve(given ?? ''), dataFolder, Date.now())
    if (restored.kind === 'failed') return fail(restored.what, restored.mend)
    const { list, aside } = restored
    console.log(`Restored ${list.runs} runs with ${list.events} entries, as of ${list.takenAt}, into ${dataFolder}.`)
    if (aside !== null) console.log(`What was there before lies in ${aside}.`)
    return
  }
  const backedUp = await backUp(dataFolder, resolve(given ?? 'backups'), Date.now())
  if (backedUp.kind === 'failed') return fail(backedUp.what, backedUp.mend)
  console.log(`${backedUp.list.runs} runs with ${backedUp.list.events} entries are in ${backedUp.folder}.`)
  console.log(
    'It holds the key that signs records, what passwords are checked with, and practised voices: keep it where only you can read it.'
  )
}

function fail(told: string, mend: string): void {
  console.error(`${told} ${mend}`)
  process.exitCode = 1
}
