/** Starts the server: settings from the environment, the store, the address; stops when told to. */
import { existsSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { serve } from '@hono/node-server'
import type { ProcedureFault } from '../src/ports/server.ts'
import { v7 as uuidv7 } from 'uuid'
import { firstOwnerCode } from './accounts/owner-code.ts'
import { openPepper } from './accounts/pepper.ts'
import { secretsWith } from './accounts/secrets.ts'
import { createApp } from './app.ts'
import { loadSchedule } from './due/load-schedule.ts'
import { createLive } from './live.ts'
import { loadProcedures } from './procedures/load-procedures.ts'
import { loadRules, offered } from './procedures/load-rules.ts'
import { pageAddress, readSettings } from './settings.ts'
import { closeGently, whyNotListening } from './listening.ts'
import { openClipStore } from './speech/clip-store.ts'
import { hostVoice } from './speech/host-voice.ts'
import { planIn } from './speech/plans.ts'
import { loadPronunciations } from './speech/load-pronunciations.ts'
import { RECIPE, SPANISH_RECIPE } from './speech/recipe.ts'
import { renderInWorker } from './speech/render-in-worker.ts'
import { createSpeech, type Speech, type Voice } from './speech/speech.ts'
import { openSigningKey } from './signing/signing-key.ts'
import { openDatabase } from './storage/open-database.ts'
import { sqliteAccounts } from './storage/sqlite-accounts.ts'
import { sqliteRecords } from './storage/sqlite-records.ts'
import { readMachine } from './time/machine-clock.ts'
import { startTrustedClock } from './time/trusted-clock.ts'
import { VOICES_FOLDER, voiceStore } from './voices/voice-store.ts'
import { talkIn } from '../src/core/talk/languages.ts'

const KEEP_TIME_EVERY_MS = 10_000
const STOP_WITHIN_MS = 4000

function fail(...lines: string[]): never {
  for (const line of lines) console.error(line)
  process.exit(1)
}

const read = readSettings(process.env)
if (read.kind === 'faulty') fail(read.what, read.mend)
const { port, hostname, dataFolder, speech: asked, spanishVoice } = read.settings

/** The package's top folder, from the source as well as from the bundle. */
const here = dirname(fileURLToPath(import.meta.url))
const top =
  ['..', '../..'].map((up) => resolve(here, up)).find((path) => existsSync(join(path, 'procedures'))) ?? process.cwd()

const opened = openDatabase(dataFolder)
if (opened.kind === 'failed') fail(opened.what, opened.mend)
const records = sqliteRecords(opened.database)
const key = openSigningKey(dataFolder)
if (key.kind === 'failed') fail(key.what, key.mend)
const pepper = openPepper(dataFolder)
if (pepper.kind === 'failed') fail(pepper.what, pepper.mend)
const accounts = sqliteAccounts(opened.database, secretsWith(pepper.pepper))
if (pepper.isNew && (await accounts.hasOwner())) {
  console.error(`The file pepper was missing from ${dataFolder}: no password, PIN or pairing fits any more.`)
  console.error('Put it back from a backup, or let an owner begin anew: npm run owner-code')
}
const clock = await startTrustedClock(records, readMachine)

const loaded = await loadProcedures(join(top, 'procedures'), records, clock.now()).catch((error: Error) =>
  fail(
    `The procedures cannot be stored in ${dataFolder}: ${error.message}.`,
    'Check disk space and permissions, then start again.'
  )
)
const { schedule, faults: ofSchedule } = await loadSchedule(join(top, 'procedures'))
const faults = [...loaded.faults, ...ofSchedule]
tell(faults)

function tell(files: readonly ProcedureFault[]): void {
  for (const { file, problems } of files) {
    for (const { line, what, mend } of problems) {
      console.error(`procedures/${file}${line === null ? '' : `:${line}`}: ${what} ${mend}`)
    }
  }
}

const told = (message: string) => console.error(message)
const spoken = await loadPronunciations(join(top, 'procedures', 'speech'))
tell(spoken.faults)
const speech = asked === 'off' ? null : await openSpeech()

async function openSpeech(): Promise<Speech | null> {
  const store = openClipStore(join(dataFolder, 'speech'), RECIPE)
  if (typeof store === 'string') {
    told(`Spoken clips cannot be kept in ${dataFolder} (${store}). Devices use their own voice.`)
    return null
  }
  const { pronunciations } = spoken
  const render = renderInWorker(new URL('speech-worker.js', import.meta.url))
  const english: Voice = { language: 'en', plan: planIn(await talkIn('en'), pronunciations), store, render }
  const spanish = spanishVoice === null ? null : await openSpanish(spanishVoice)
  return createSpeech({ records, voices: spanish ? [english, spanish] : [english], pronunciations, log: told })
}

/** By a program of this machine; null where that says nothing. */
async function openSpanish(program: string): Promise<Voice | null> {
  const store = openClipStore(join(dataFolder, 'speech-es'), SPANISH_RECIPE)
  if (typeof store === 'string' || (await hostVoice(program)('Hola.')) === null) {
    told(`Spanish is left to the devices: ${program} says nothing, or its clips cannot be kept in ${dataFolder}.`)
    return null
  }
  const render = renderInWorker(new URL('speech-worker.js', import.meta.url), program)
  return { language: 'es', plan: planIn(await talkIn('es'), spoken.pronunciations), store, render }
}

const live = createLive()
const pageFolder = join(top, 'dist', 'page')
const loadedRules = await loadRules(join(top, 'procedures', 'rules'))
const rules = offered(loadedRules)
const app = createApp({
  records,
  accounts,
  faults,
  rules,
  schedule,
  live,
  speech,
  voices: voiceStore(join(dataFolder, VOICES_FOLDER)),
  signer: key.signer,
  newId: () => uuidv7(),
  now: clock.now,
  pageFolder,
  log: told,
  workshop: { shop: loadedRules.kind === 'loaded' ? loadedRules.shop : null, shipped: loaded.shipped }
})
const ownerCode = await firstOwnerCode(accounts, clock.now())
const server = serve({ fetch: app.fetch, port, hostname }, (taken) => {
  console.log(`Sidecall is ready: ${pageAddress(hostname, taken.port)}`)
  if (ownerCode !== null) {
    console.log(`This shop has no owner yet. One-time code for "People and devices" on the first screen: ${ownerCode}`)
  }
  void speech?.renderAll()
})
server.on('error', (error) => fail(...whyNotListening(error, port, hostname)))
const keeping = setInterval(() => void clock.keep(), KEEP_TIME_EVERY_MS)

let stopping = false
async function stop(): Promise<void> {
  if (stopping) return
  stopping = true
  clearInterval(keeping)
  // Somebody who never finishes asking must not hold up the rest.
  setTimeout(() => process.exit(1), STOP_WITHIN_MS).unref()
  live.end()
  speech?.end()
  await closeGently(server)
  await clock.keep()
  await records.close()
  process.exit(0)
}
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => void stop())
