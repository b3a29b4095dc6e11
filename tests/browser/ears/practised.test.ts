/**
 * The embedded ears in a real browser: sound files stand in for the microphone, nothing else is replaced. This browser
 * has a recognition interface without an engine behind it, as many have, so the page finds out and uses its own.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium, type BrowserContext, type Page } from 'playwright-core'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { SAMPLE_RATE } from '../../../src/core/ears/sound.ts'
import { quietRoom } from '../../ears/ear-models.ts'
import { kitchenNoise } from '../../ears/kitchen-noise.ts'
import { mixedAt, speechPower } from '../../ears/mix.ts'
import { readAudio } from '../../ears/read-audio.ts'
import { withHead } from '../../helpers/a-procedure.ts'
import { kitchenServer, type KitchenServer } from '../../helpers/kitchen-server.ts'
import { pcm16, wavFile } from '../../helpers/wav.ts'
import { CHROMIUM } from '../launch.ts'

const CLIPS = join(import.meta.dirname, '../../ears/clips')
const STEPS_ONLY = withHead(`  - stage: Strip
    steps:
      - {step: lift, say: Lift the cover off., hands: 10 s}
      - {step: close, on: whole machine, say: Close the cover., hands: 10 s}`)

let folder: string
let server: KitchenServer
let context: BrowserContext | null = null

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-ears-'))
  server = await kitchenServer([STEPS_ONLY])
})
afterEach(async () => {
  await context?.close()
  context = null
  await server.end()
  rmSync(folder, { recursive: true })
})

/** Opens the page with this sound at the microphone, again and again; what the page keeps stays from one to the next. */
async function openWith(sound: Float32Array): Promise<Page> {
  const file = join(folder, 'microphone.wav')
  writeFileSync(file, wavFile(pcm16(sound), { rate: SAMPLE_RATE }))
  context = await chromium.launchPersistentContext(join(folder, 'profile'), {
    executablePath: CHROMIUM,
    permissions: ['microphone'],
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      `--use-file-for-fake-audio-capture=${file}`
    ]
  })
  const page = context.pages()[0] ?? (await context.newPage())
  await page.goto(server.url)
  return page
}

/** Says who is at work; it stays from one visit to the next. */
async function choose(page: Page): Promise<void> {
  await page.locator('.card').click()
  await page.getByLabel('Who is doing it?').fill('Ada')
}

/** Clips, each behind so many seconds of a quiet room; at the end another second. */
async function spoken(files: readonly string[], pause: number): Promise<Float32Array> {
  const clips = await Promise.all(files.map((file) => readAudio(join(CLIPS, file))))
  const gap = pause * SAMPLE_RATE
  const sound = quietRoom(
    clips.reduce((sum, { length }) => sum + length + gap, SAMPLE_RATE),
    3
  )
  let at = gap
  for (const clip of clips) {
    clip.forEach((value, k) => (sound[at + k] = (sound[at + k] ?? 0) + 0.3 * value))
    at += clip.length + gap
  }
  return sound
}

test('practised from sound alone, then a whole run by voice beside a fan', async () => {
  const takes = [1, 2].map((take) => `enrol/all_done-${take}.flac`)
  const practice = await openWith(await spoken([...takes, ...takes], 2))
  await choose(practice)
  // The name is kept a moment after it was typed.
  await practice.waitForTimeout(1500)
  await practice.goto(server.url)
  await practice.getByRole('button', { name: 'Practise your voice' }).click()
  await practice.getByText('For Ada').waitFor()
  await practice.getByRole('button', { name: 'Practise: all done' }).click()
  await practice.getByText('2 of 3').first().waitFor()
  await practice.getByRole('button', { name: 'Stop' }).click()
  await practice
    .getByRole('listitem')
    .filter({ hasText: 'Practise: all done' })
    .getByText(/[23] of 3/)
    .waitFor()
  await context?.close()

  const quiet = await spoken(['spoken/all_done-4.flac'], 4)
  const power = speechPower((await readAudio(join(CLIPS, 'spoken/all_done-4.flac'))).map((value) => 0.3 * value))
  const page = await openWith(mixedAt(quiet, power, kitchenNoise('fan', 20, 8), 15))
  await choose(page)
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('.finished').waitFor({ timeout: 90_000 })
  // What the screen shows is on its way to the server.
  const steps = async () => (await server.events()).filter(({ type }) => type === 'step-done').map(({ via }) => via)
  await expect.poll(steps).toEqual(['voice', 'voice', 'voice'])
})

test('other talk, with nobody giving a command, moves nothing', async () => {
  const page = await openWith(await spoken(['spoken/say_again-4.flac', 'spoken/carry_on-4.flac'], 1))
  await choose(page)
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('.call-area').waitFor()
  // Long enough for the ears to load and hear each of them several times.
  await page.waitForTimeout(20_000)
  expect((await server.events()).map(({ type }) => type)).not.toContain('step-done')
})
