/** The page in Spanish, and in a language a third longer than English: nothing off the screen, nothing cut, nothing left in English. */
import type { Page } from 'playwright-core'
import { build, type Rolldown } from 'vite'
import { beforeAll, describe, expect, test } from 'vitest'
import { textsEs as spanish } from '../../../src/screens/texts.es.ts'
import type { Texts } from '../../../src/screens/texts.ts'
import { SPANISH as pseudoTalk, textsEs as pseudo } from '../../languages/pseudo-texts.ts'
import { faultsInPage } from './page-faults.ts'
import { shopScreens } from './shop-screens.ts'
import { walkScreens } from './walk-screens.ts'

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

const shop = shopScreens(WORDY)
let page: Page
let pseudoModule = ''

beforeAll(async () => {
  const built = (await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      target: 'es2022',
      lib: { entry: `${import.meta.dirname}/../../languages/pseudo-texts.ts`, formats: ['es'] },
      rolldownOptions: { output: { codeSplitting: false } }
    }
  })) as Rolldown.RolldownOutput[]
  pseudoModule = built[0]?.output[0]?.code ?? ''
})

const LEFT_IN_ENGLISH =
  /(?<!\p{L})(?:ENGLISH|the|and|with|your|this|hands?|read|wait|done|number|again)(?!\p{L}).{0,30}/iu

/** What is wrong in this state. */
async function look(state: string): Promise<readonly string[]> {
  await pass(150)
  const faults = async () => (await page.evaluate(faultsInPage)).faults
  // Sizes are fitted just before a frame is painted; a look between the change and that frame sees what nobody does.
  await expect
    .poll(faults, { timeout: 3000 })
    .toEqual([])
    .catch(() => undefined)
  expect(await page.evaluate(() => document.documentElement.lang)).toBe(pseudoTalk.language)
  // Words for the eye and words for a screen reader alike.
  const read = await page.evaluate(() => [
    document.body.innerText,
    ...[...document.querySelectorAll('[aria-label], [title], [placeholder]')].flatMap((element) =>
      ['aria-label', 'title', 'placeholder'].map((name) => element.getAttribute(name) ?? '')
    )
  ])
  const english = LEFT_IN_ENGLISH.exec(read.join('\n').replaceAll(/English|Language|Sidecall/g, ''))?.[0] ?? []
  return [...(await faults()), english].flat().map((one) => `${state}: ${one}`)
}

const pass = (ms: number) => shop.pass(page, ms)

describe.each([
  ['Spanish', spanish],
  ['a language a third longer', pseudo]
] as const)('%s', (language, texts: Texts) => {
  test.each(SIZES)('every screen fits at $width x $height', async ({ width, height, distance }) => {
    const device = { viewport: { width, height }, locale: 'es-MX', serviceWorkers: 'block' } as const
    page = await shop.open(device, async (opened) => {
      if (language !== 'Spanish')
        await opened.route(/\/assets\/(?:texts\.es|spanish)-.*\.js$/, (route) =>
          route.fulfill({ contentType: 'text/javascript', body: pseudoModule })
        )
    })
    const found: string[] = []
    await walkScreens(
      page,
      { pass, set: (settings) => settings.locator(`input[value=${distance}]`).check(), texts },
      async (state) => {
        // On a telephone the longer words scroll for as long as the last answer can be taken back beside them.
        if (state === 'reading' && language !== 'Spanish') await pass(16_000)
        found.push(...(await look(state)))
      }
    )
    expect(found).toEqual([])
    await page.context().close()
  })
})
