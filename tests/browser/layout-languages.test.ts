/** The page in Spanish, and in a language a third longer than English: nothing off the screen, nothing cut, nothing left in English. */
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core'
import { build, type Rolldown } from 'vite'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { textsEs as spanish } from '../../src/screens/texts.es.ts'
import type { Texts } from '../../src/screens/texts.ts'
import { kitchenServer, type KitchenServer } from '../helpers/kitchen-server.ts'
import { SPANISH as pseudoTalk, textsEs as pseudo } from '../languages/pseudo-texts.ts'
import { faultsInPage } from './page-faults.ts'
import { installScriptedVoice } from './scripted-voice.ts'

/** As much text as the rules of writing allow; the English is never to be seen. */
const WORDY = `procedure: wordy
title: {en: ENGLISH, es: Limpieza de prueba con mucho texto}
summary: {en: ENGLISH, es: Una limpieza para ver si todo cabe en la pantalla.}
languages: [en, es]
machine: {en: Tower, es: Torre}
sides: [{id: left, name: {en: ENGLISH one, es: Izquierda}}, {id: right, name: {en: ENGLISH two, es: Derecha}}]
stages:
  - stage: {en: ENGLISH, es: Lave}
    steps:
      - {step: lay, say: {en: ENGLISH, es: "Ponga todas estas piezas limpias en la rejilla, sin que se toquen."}, hands: 10 s}
      - step: mix
        say: {en: ENGLISH, es: Prepare el limpiador en el balde limpio.}
        hands: 30 s
        cautions:
          - signal: warning
            hazard: {en: ENGLISH, es: Limpiador mezclado con otro químico.}
            consequence: {en: ENGLISH, es: El cloro con ácido o amoníaco suelta un gas que puede matar.}
            avoid: {en: ENGLISH, es: Use un solo producto en un balde enjuagado y nunca agregue otro.}
          - signal: caution
            hazard: {en: ENGLISH, es: Limpiador y agua caliente.}
            consequence: {en: ENGLISH, es: Pueden quemar la piel y los ojos.}
            avoid: {en: ENGLISH, es: "Trabaje con guantes y lentes puestos. Si salpica, enjuague enseguida con mucha agua."}
        confirm: {en: one two three, es: las manos están fuera}
      - step: warm
        say: {en: ENGLISH, es: Mida la temperatura del limpiador en el balde.}
        hands: 20 s
        read:
          question: {en: ENGLISH, es: ¿A cuántos grados está el limpiador del balde limpio?}
          reading: temperature
          unit: C
          at least: 43
          at most: 49
          source: {en: ENGLISH, es: "Práctica común. Primero valen la etiqueta del producto, el manual y las normas locales."}
          if not:
            - {en: ENGLISH, es: "Agregue agua caliente o fría, respete la dosis de la etiqueta y tome otra lectura."}
            - {en: ENGLISH, es: Tírelo y prepare un balde fresco según la etiqueta del producto.}
            - {en: ENGLISH, es: Llame al supervisor antes de seguir.}
      - {step: scrub, on: bench, say: {en: ENGLISH, es: Talle la bandeja.}, hands: 1 min}
`

const SIZES = [
  { width: 1280, height: 800, distance: 'near' },
  { width: 390, height: 844, distance: 'hand' }
] as const

let browser: Browser
let server: KitchenServer
let context: BrowserContext
let page: Page
let pseudoModule = ''

beforeAll(async () => {
  browser = await chromium.launch({
    executablePath: process.env['SIDECALL_CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu']
  })
  server = await kitchenServer([WORDY])
  const built = (await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      target: 'es2022',
      lib: { entry: `${import.meta.dirname}/../languages/pseudo-texts.ts`, formats: ['es'] },
      rolldownOptions: { output: { codeSplitting: false } }
    }
  })) as Rolldown.RolldownOutput[]
  pseudoModule = built[0]?.output[0]?.code ?? ''
})
afterAll(async () => {
  await browser.close()
  await server.end()
})

async function look(): Promise<void> {
  await pass(150)
  await expect.poll(async () => (await page.evaluate(faultsInPage)).faults, { timeout: 3000 }).toEqual([])
  expect(await page.evaluate(() => document.documentElement.lang)).toBe(pseudoTalk.language)
  // Words for the eye and words for a screen reader alike.
  const read = await page.evaluate(() => [
    document.body.innerText,
    ...[...document.querySelectorAll('[aria-label], [title], [placeholder]')].flatMap((element) =>
      ['aria-label', 'title', 'placeholder'].map((name) => element.getAttribute(name) ?? '')
    )
  ])
  expect(read.join('\n').replaceAll(/English|Language|Sidecall/g, '')).not.toMatch(
    /(?<!\p{L})(?:ENGLISH|the|and|with|your|this|hands?|read|wait|done|number|again)(?!\p{L})/iu
  )
}

async function pass(ms: number): Promise<void> {
  server.pass(ms)
  await page.clock.runFor(ms)
}

const answer = () => page.locator('.actions > .press.main').first()
const button = (name: string) => page.getByRole('button', { name, exact: true })

describe.each([
  ['Spanish', spanish],
  ['a language a third longer', pseudo]
] as const)('%s', (language, texts: Texts) => {
  test.each(SIZES)('every screen of a run fits at $width x $height', async ({ width, height, distance }) => {
    const { screens, panels, gather } = texts
    context = await browser.newContext({ viewport: { width, height }, locale: 'es-MX', serviceWorkers: 'block' })
    await context.addInitScript('globalThis.__name = (named) => named')
    await context.addInitScript(installScriptedVoice)
    page = await context.newPage()
    if (language !== 'Spanish')
      await page.route(/\/assets\/(?:texts\.es|spanish)-.*\.js$/, (route) =>
        route.fulfill({ contentType: 'text/javascript', body: pseudoModule })
      )
    await page.clock.install()
    await page.goto(server.url)
    await page.locator('.card').first().waitFor()
    await page.locator('summary').click()
    await page.locator(`input[value=${distance}]`).check()
    await look()
    for (const name of [texts.choose.records, texts.choose.sums, texts.choose.practice]) {
      await button(name).click()
      await page.locator('.day').waitFor({ state: 'detached' })
      await look()
      await button(screens.back).click()
      await page.locator('.card').first().waitFor()
    }
    await page.locator('.card').first().click()
    await page.getByLabel(gather.who).fill('Ana')
    await look()
    await button(gather.start).click()
    await page.locator('[data-call=step]').waitFor()
    await look()
    await button(screens.act.other).click()
    await look()
    await page.locator('.ways').getByRole('button', { name: screens.close, exact: true }).click()
    const { ways } = panels
    for (const name of [ways.problem, ways.words, ways.crew, ways.transcript, ways.keys, ways.guards, ways.endEarly]) {
      await button(screens.act.other).click()
      await page.locator('.ways').getByRole('button', { name, exact: true }).click()
      await look()
      await page.locator('.panel > .press').click()
    }
    await pass(600)
    await answer().click()
    await page.locator('[data-call=caution]').waitFor()
    await look()
    await pass(600)
    await answer().click()
    await page.locator('.hold').waitFor()
    await look()
    await pass(600)
    await page.locator('.hold').hover()
    await page.mouse.down()
    await pass(900)
    await page.mouse.up()
    await button(screens.act.enterNumber).waitFor()
    // On a telephone the longer words scroll for as long as the last answer can be taken back beside them.
    if (language !== 'Spanish') await pass(16_000)
    await look()
    await pass(600)
    await answer().click()
    for (const digit of ['2', '0'])
      await page.locator('.number-keys').getByRole('button', { name: digit, exact: true }).click()
    await look()
    await button(screens.act.record).click()
    await page.locator('[data-call=stopped]').waitFor()
    await look()
    await page.reload()
    await page.locator('.needs-tap').waitFor()
    await look()
    await context.close()
  })
})
